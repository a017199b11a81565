import { readFileSync } from 'node:fs'
import path from 'node:path'
import { z } from 'zod'

/** What cannot be done, in a sentence for whoever runs the program. */
export class BackupError extends Error {}

export const MANIFEST = 'manifest.json'
export const DATABASE = 'database.sqlite'
export const TABLES = 'tables'
export const FILES = 'files'

const Hash = z.string().regex(/^[0-9a-f]{64}$/)

/** Stands in every backup: what it holds, so that it can be checked before it is needed. docs/operations.md. */
export const Manifest = z.strictObject({
  format: z.literal('swardhand-backup'),
  version: z.literal(1),
  madeAtMs: z.int(),
  /** `sqlite`: the store is one file; `postgres`: one file of lines for each table. */
  engine: z.enum(['sqlite', 'postgres']),
  schema: z.int().positive(),
  purpose: z.enum(['practice', 'live']),
  tables: z.record(z.string(), z.strictObject({ rows: z.int().nonnegative(), sha256: Hash })),
  /** The newest link of each crew's chain of records, as papers print it. */
  chains: z.array(z.strictObject({ crew: z.string(), links: z.int(), head: z.string().nullable() })),
  /** Photos and papers, by the hash of their content. */
  files: z.array(Hash),
})
export type Manifest = z.infer<typeof Manifest>

/** @throws BackupError if there is no backup, or one that this program cannot read */
export function readManifest(folder: string): Manifest {
  let text: string
  try {
    text = readFileSync(path.join(folder, MANIFEST), 'utf8')
  } catch {
    throw new BackupError(`Cannot read a backup: there is no ${MANIFEST} in ${folder}`)
  }
  const read = Manifest.safeParse(jsonOf(text))
  if (!read.success) throw new BackupError(`Cannot read the backup in ${folder}: its ${MANIFEST} is damaged`)
  return read.data
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}
