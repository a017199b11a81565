import { renameSync, rmSync } from 'node:fs'
import { copyFile, mkdir } from 'node:fs/promises'
import path from 'node:path'
import { type ChainHead, chainHeads } from '#src/store/chain-heads.ts'
import { refuseNewer } from '#src/store/migrate.ts'
import { type DatabaseAddress, filesOfSqlite, isEmptyStore, lookInto, openDatabase } from '#src/store/open.ts'
import { continueIds, digestTables, emptyMeta, insertRows, rowsOf } from '#src/store/rows.ts'
import { schemaAt, type TableShape } from '#src/store/schema-at.ts'
import { write } from '#src/store/transaction.ts'
import { readArchive } from './archive.ts'
import { BackupError, DATABASE, FILES, type Manifest, readManifest, TABLES } from './manifest.ts'
import { carry, OWN_FOLDER, syncPath } from './on-disk.ts'
import { differences, verifyBackup } from './verify.ts'

export interface RestoreParts {
  readonly folder: string
  readonly address: DatabaseAddress
  readonly filesFolder: string
}

export interface RestoreReport {
  readonly rows: number
  readonly files: number
  readonly chains: readonly ChainHead[]
}

/**
 * Brings a backup back into an empty place, in either engine, and compares every table with what was backed up.
 * Nothing that is there is overwritten. @throws BackupError, WrongDatabase, or what engine and disk say
 */
export async function restore({ folder, address, filesFolder }: RestoreParts): Promise<RestoreReport> {
  const manifest = readManifest(folder)
  refuseNewer(manifest.schema)
  const wrong = await verifyBackup(folder)
  if (wrong.length > 0) throw new BackupError(`Cannot restore a damaged backup: ${wrong.join('; ')}`)
  if (!(await isEmptyStore(address))) throw new BackupError(`Cannot restore: ${notEmpty(address)}`)
  for (const hash of manifest.files)
    await carry(hash, { from: path.join(folder, FILES), before: null, to: filesFolder })
  const shapes = await schemaAt(manifest.schema)
  if (address.engine === 'sqlite') await restoreFile(folder, manifest, address.path, shapes)
  else await restoreRows(folder, manifest, address, shapes)
  return examine(manifest, address, shapes)
}

function notEmpty(address: DatabaseAddress): string {
  if (address.engine === 'postgres') return 'the database is not empty. Name another one.'
  const there = filesOfSqlite(address.path).map((file) => path.basename(file))
  return `in ${path.dirname(address.path)} lies ${there.join(', ')}. Move all of it away, or name another place.`
}

/** Made beside its place and moved there whole: a restore that breaks off leaves no half database behind. */
async function restoreFile(
  folder: string,
  manifest: Manifest,
  place: string,
  shapes: readonly TableShape[],
): Promise<void> {
  const draft = `${place}.restoring`
  rmSync(draft, { force: true })
  await mkdir(path.dirname(draft), OWN_FOLDER)
  const address: DatabaseAddress = { engine: 'sqlite', path: draft }
  if (manifest.engine === 'sqlite') {
    await copyFile(path.join(folder, DATABASE), draft)
    const store = await openDatabase(address, manifest.purpose, manifest.schema)
    try {
      await write(store, (db) => continueIds(db, 'sqlite', shapes))
    } finally {
      await store.close()
    }
  } else await restoreRows(folder, manifest, address, shapes)
  await syncPath(draft)
  renameSync(draft, place)
  await syncPath(path.dirname(place))
}

/** All tables in one transaction. */
async function restoreRows(
  folder: string,
  manifest: Manifest,
  address: DatabaseAddress,
  shapes: readonly TableShape[],
): Promise<void> {
  const store = await openDatabase(address, manifest.purpose, manifest.schema)
  const from =
    manifest.engine === 'sqlite'
      ? await lookInto({ engine: 'sqlite', path: path.join(folder, DATABASE) })
      : null
  const pages = (shape: TableShape) =>
    from === null ? readArchive(path.join(folder, TABLES), shape.name) : rowsOf(from.db, shape)
  try {
    await write(store, async (db) => {
      await emptyMeta(db)
      for (const shape of shapes)
        for await (const page of pages(shape)) await insertRows(db, store.words.engine, shape, page)
      await continueIds(db, store.words.engine, shapes)
    })
  } finally {
    await from?.close()
    await store.close()
  }
}

async function examine(
  manifest: Manifest,
  address: DatabaseAddress,
  shapes: readonly TableShape[],
): Promise<RestoreReport> {
  const store = await lookInto(address)
  try {
    const wrong = differences(manifest.tables, await digestTables(store.db, shapes))
    if (wrong.length > 0) throw new BackupError(`What was restored is not the backup: ${wrong.join('; ')}`)
    const hasChains = shapes.some(({ name }) => name === 'chain_links')
    return {
      rows: Object.values(manifest.tables).reduce((sum, { rows }) => sum + rows, 0),
      files: manifest.files.length,
      chains: hasChains ? await chainHeads(store.db) : [],
    }
  } finally {
    await store.close()
  }
}
