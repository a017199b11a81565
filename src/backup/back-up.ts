import { existsSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs'
import { mkdir, writeFile } from 'node:fs/promises'
import path from 'node:path'
import { type ChainHead, chainHeads } from '#src/store/chain-heads.ts'
import { copySqlite } from '#src/store/copy-sqlite.ts'
import { blobsNamed } from '#src/store/files.ts'
import { type DatabaseAddress, type LookedAt, lookInto } from '#src/store/open.ts'
import { digestTables } from '#src/store/rows.ts'
import { schemaAt } from '#src/store/schema-at.ts'
import { snapshot } from '#src/store/transaction.ts'
import { writeArchive } from './archive.ts'
import { BackupError, DATABASE, FILES, MANIFEST, Manifest, TABLES } from './manifest.ts'
import { carry, keptHashes, OWN_FILE, OWN_FOLDER, syncPath } from './on-disk.ts'
import { verifyBackup } from './verify.ts'

export interface BackupParts {
  readonly address: DatabaseAddress
  readonly filesFolder: string
  readonly backupsFolder: string
  /** How many finished backups stay, this one among them. */
  readonly keep: number
  readonly nowMs: number
}

export interface BackupReport {
  readonly folder: string
  readonly rows: number
  readonly files: number
  readonly chains: readonly ChainHead[]
  /** Files that the store names and the files' folder does not have, or has damaged. */
  readonly missing: readonly string[]
  /** Earlier backups that went. */
  readonly dropped: readonly string[]
}

/**
 * Copies the store while it is in use, as it stands at one moment, and every photo and paper; reads all of it back.
 * @throws BackupError, WrongDatabase, or what engine and disk say; what was begun is then left as `….partial`
 */
export async function backUp(parts: BackupParts): Promise<BackupReport> {
  const folder = path.join(parts.backupsFolder, nameAt(parts.nowMs))
  const draft = `${folder}${PARTIAL}`
  if (existsSync(folder) || existsSync(draft))
    throw new BackupError(`Cannot make a backup: there is one of this second already, ${folder}`)
  const before = finishedIn(parts.backupsFolder).at(-1) ?? null
  await mkdir(draft, OWN_FOLDER)
  const store =
    parts.address.engine === 'sqlite'
      ? await copyStore(parts.address.path, draft)
      : await archiveStore(parts.address, draft)
  // After the store: a file is kept before the row that names it, so that none of this copy's rows lacks its file.
  const files: string[] = []
  for (const hash of keptHashes(parts.filesFolder)) {
    const sound = await carry(hash, {
      from: parts.filesFolder,
      before: before === null ? null : path.join(parts.backupsFolder, before, FILES),
      to: path.join(draft, FILES),
    })
    if (sound) files.push(hash)
  }
  const manifest: Manifest = Manifest.parse({
    format: 'swardhand-backup',
    version: 1,
    madeAtMs: parts.nowMs,
    engine: parts.address.engine,
    schema: store.schema,
    purpose: store.purpose,
    tables: store.tables,
    chains: store.chains.map(({ crew, links, head }) => ({ crew, links, head })),
    files,
  })
  const place = path.join(draft, MANIFEST)
  await writeFile(place, `${JSON.stringify(manifest, null, 2)}\n`, { mode: OWN_FILE })
  await syncPath(place)
  const wrong = await verifyBackup(draft)
  if (wrong.length > 0) throw new BackupError(`The backup does not read back: ${wrong.join('; ')}`)
  await syncPath(draft)
  renameSync(draft, folder)
  await syncPath(parts.backupsFolder)
  const kept = new Set(files)
  return {
    folder,
    rows: Object.values(store.tables).reduce((sum, { rows }) => sum + rows, 0),
    files: files.length,
    chains: store.chains,
    missing: store.blobs.filter((hash) => !kept.has(hash)),
    dropped: tidy(parts.backupsFolder, parts.keep, parts.nowMs),
  }
}

async function copyStore(from: string, draft: string) {
  if (!existsSync(from)) throw new BackupError(`Cannot make a backup: there is no database at ${from}`)
  const to = path.join(draft, DATABASE)
  await copySqlite(from, to)
  await syncPath(to)
  const copy = await lookInto({ engine: 'sqlite', path: to })
  try {
    const shapes = await schemaAt(copy.schema)
    return { ...(await seen(copy, copy)), tables: await digestTables(copy.db, shapes) }
  } finally {
    await copy.close()
  }
}

async function archiveStore(address: DatabaseAddress, draft: string) {
  const store = await lookInto(address)
  try {
    const shapes = await schemaAt(store.schema)
    return await snapshot(store, async (db) => {
      const tables = await writeArchive(db, shapes, path.join(draft, TABLES))
      return { ...(await seen(store, { ...store, db })), tables }
    })
  } finally {
    await store.close()
  }
}

async function seen({ schema, purpose }: LookedAt, { db }: Pick<LookedAt, 'db'>) {
  const hasChains = (await schemaAt(schema)).some(({ name }) => name === 'chain_links')
  return { schema, purpose, chains: hasChains ? await chainHeads(db) : [], blobs: await blobsNamed(db) }
}

const NAME = /^swardhand-\d{4}-\d\d-\d\dT\d\d-\d\d-\d\dZ$/
const PARTIAL = '.partial'

const nameAt = (nowMs: number) =>
  `swardhand-${new Date(nowMs).toISOString().slice(0, 19).replaceAll(':', '-')}Z`

/** Finished backups, the oldest first. */
export function finishedIn(folder: string): string[] {
  if (!existsSync(folder)) return []
  return readdirSync(folder)
    .filter((name) => NAME.test(name) && existsSync(path.join(folder, name, MANIFEST)))
    .sort()
}

/** A backup that was broken off is no longer at work after this. */
const ABANDONED_MS = 24 * 3_600_000

/** Takes away what is more than is kept, and what was left half made. Nothing that this program did not name. */
function tidy(folder: string, keep: number, nowMs: number): string[] {
  const old = finishedIn(folder).slice(0, -keep)
  const broken = readdirSync(folder).filter(
    (name) =>
      name.endsWith(PARTIAL) &&
      NAME.test(name.slice(0, -PARTIAL.length)) &&
      nowMs - statSync(path.join(folder, name)).mtimeMs > ABANDONED_MS,
  )
  for (const name of [...old, ...broken]) rmSync(path.join(folder, name), { recursive: true })
  return old
}
