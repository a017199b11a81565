import { chmodSync, existsSync } from 'node:fs'
import path from 'node:path'
import { problemsOfSqlite } from '#src/store/copy-sqlite.ts'
import { lookInto } from '#src/store/open.ts'
import { digestTables, type TableDigest } from '#src/store/rows.ts'
import { schemaAt } from '#src/store/schema-at.ts'
import { digestArchive } from './archive.ts'
import { DATABASE, FILES, type Manifest, readManifest, TABLES } from './manifest.ts'
import { placeOf, sha256OfFile } from './on-disk.ts'

type Digests = Readonly<Record<string, TableDigest>>

/** Tables that are not what they were written down as; nothing when all are. */
export function differences(expected: Digests, found: Digests): string[] {
  const names = new Set([...Object.keys(expected), ...Object.keys(found)])
  return [...names].sort().flatMap((name) => {
    const [one, other] = [expected[name], found[name]]
    if (one === undefined || other === undefined) return [`the table ${name} is not in both`]
    if (one.rows !== other.rows) return [`${name} has ${other.rows} rows in place of ${one.rows}`]
    return one.sha256 === other.sha256 ? [] : [`${name} holds something else`]
  })
}

/** Reads a backup back whole: what is wrong with it, nothing for a sound one. @throws BackupError without a manifest */
export async function verifyBackup(folder: string): Promise<string[]> {
  const manifest = readManifest(folder)
  return [...(await tablesWrong(folder, manifest)), ...(await filesWrong(folder, manifest))]
}

async function tablesWrong(folder: string, manifest: Manifest): Promise<string[]> {
  if (manifest.engine === 'postgres')
    return differences(
      manifest.tables,
      await digestArchive(path.join(folder, TABLES), Object.keys(manifest.tables)),
    )
  const file = path.join(folder, DATABASE)
  chmodSync(file, 0o600)
  const problems = problemsOfSqlite(file)
  if (problems.length > 0) return problems
  const store = await lookInto({ engine: 'sqlite', path: file })
  try {
    return differences(manifest.tables, await digestTables(store.db, await schemaAt(store.schema)))
  } finally {
    await store.close()
  }
}

async function filesWrong(folder: string, { files }: Manifest): Promise<string[]> {
  const wrong: string[] = []
  for (const hash of files) {
    const place = placeOf(path.join(folder, FILES), hash)
    if (!existsSync(place)) wrong.push(`the file ${hash} is missing`)
    else if ((await sha256OfFile(place)) !== hash) wrong.push(`the file ${hash} holds something else`)
  }
  return wrong
}
