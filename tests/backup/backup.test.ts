import { createHash } from 'node:crypto'
import {
  appendFileSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { sql } from 'kysely'
import { beforeEach, describe, expect, onTestFinished, test } from 'vitest'
import { type BackupReport, backUp, finishedIn } from '#src/backup/back-up.ts'
import { BackupError, MANIFEST, readManifest } from '#src/backup/manifest.ts'
import { restore } from '#src/backup/restore.ts'
import { verifyBackup } from '#src/backup/verify.ts'
import { printHead } from '#src/record/chain.ts'
import { blobsIn } from '#src/store/blobs.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { NEWEST_SCHEMA, WrongDatabase } from '#src/store/migrate.ts'
import type { Database, DatabaseAddress } from '#src/store/open.ts'
import { digestTables, TURN_GAP } from '#src/store/rows.ts'
import { schemaAt } from '#src/store/schema-at.ts'
import { write } from '#src/store/transaction.ts'
import { NOON_MS, run } from '#tests/helpers/asks.ts'
import { eachEngine, type Place, sqlitePlace } from '#tests/helpers/engines.ts'
import { openTestDesk } from '#tests/helpers/test-desk.ts'
import { CHAIN, fillStore } from './fill-store.ts'

const DAY_MS = 86_400_000

interface Stage {
  readonly address: DatabaseAddress
  readonly database: Database
  readonly filesFolder: string
  readonly backupsFolder: string
  backUp(nowMs?: number, keep?: number): Promise<BackupReport>
}

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'swardhand-backup-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
})

/** A store with rows in every table, a chain of records that holds, and two photos. */
async function stage(place: Place): Promise<Stage> {
  const address = await place.address()
  const database = await place.open(address)
  const filesFolder = path.join(folder, 'files')
  await fillStore(database, filesFolder)
  const backupsFolder = path.join(folder, 'backups')
  return {
    address,
    database,
    filesFolder,
    backupsFolder,
    backUp: (nowMs = NOON_MS, keep = 14) => backUp({ address, filesFolder, backupsFolder, keep, nowMs }),
  }
}
const digests = async ({ db }: Database) => digestTables(db, await schemaAt(NEWEST_SCHEMA))

eachEngine('a backup', (place) => {
  test('is brought back with every table, every file and the newest hash of every chain', async () => {
    const { database, filesFolder, backUp } = await stage(place)
    const made = await backUp()
    const heads = await Promise.all(
      [1, 2].map((crew) => write(database, (db) => crewStore(db, crew).records.head())),
    )
    expect(made.chains.map(({ head, links, breaks }) => ({ head, links, breaks }))).toEqual(
      heads.map((head) => ({ head: head && printHead(head), links: 3, breaks: [] })),
    )
    expect(made).toMatchObject({ files: 2, missing: [], dropped: [] })

    const address = await place.address()
    const files = path.join(folder, 'brought-back')
    const restored = await restore({ folder: made.folder, address, filesFolder: files })
    expect(restored).toMatchObject({ rows: made.rows, files: 2, chains: made.chains })
    const again = await place.open(address)
    const [was, is] = [await digests(database), await digests(again)]
    expect(is).toEqual(was)
    expect(Object.keys(is)).toHaveLength((await schemaAt(NEWEST_SCHEMA)).length)
    // The chain is filled by hand above; every other table has rows of the generator.
    const empty = Object.entries(is).filter(([name, { rows }]) => rows === 0 && !CHAIN.includes(name))
    expect(empty).toEqual([])
    const [photo] = await again.db.selectFrom('files').select('blob').execute()
    expect(await blobsIn(files).read(photo?.blob ?? '')).toEqual(
      await blobsIn(filesFolder).read(photo?.blob ?? ''),
    )
  })

  test('taken while requests are written holds each of them whole or not at all', async () => {
    const { database, backUp } = await stage(place)
    const desk = openTestDesk(database)
    let goesOn = true
    const writing = (async () => {
      for (let n = 0; goesOn; n += 1) {
        await desk.answer(run('note', { text: `note ${n}` }))
        await new Promise(setImmediate)
      }
    })()
    const made = await backUp()
    goesOn = false
    await writing
    const address = await place.address()
    await restore({ folder: made.folder, address, filesFolder: path.join(folder, 'brought-back') })
    const again = await place.open(address)
    const { rows: halves } = await sql`
      select id from turns where crew_id = (select id from crews where key = 'test:1') and outcome = ''
    `.execute(again.db)
    expect(halves).toEqual([])
    const notes = await openTestDesk(again).written()
    const turns = await openTestDesk(again).look((store) => store.turns.list({ limit: 10_000 }))
    expect(turns).toHaveLength(notes.length)
  })

  test('brought back, a button of the time since leads nowhere: turn ids go on behind a gap', async () => {
    const { database, backUp } = await stage(place)
    const made = await backUp()
    const lost = await openTestDesk(database).answer(run('pick'))
    const address = await place.address()
    await restore({ folder: made.folder, address, filesFolder: path.join(folder, 'brought-back') })
    const desk = openTestDesk(await place.open(address))
    const next = await desk.answer(run('pick'))
    expect(next.turnId).toBeGreaterThanOrEqual((lost.turnId ?? 0) + TURN_GAP)
  })

  test('a place that is not empty is left as it is', async () => {
    const { address, database, backUp } = await stage(place)
    const made = await backUp()
    const before = await digests(database)
    const again = restore({ folder: made.folder, address, filesFolder: path.join(folder, 'elsewhere') })
    // PostgreSQL names no files; SQLite names all that have to be moved.
    const says =
      address.engine === 'sqlite'
        ? `lies ${['', '-wal', '-shm'].map((end) => `${path.basename(address.path)}${end}`).join(', ')}. Move all of it away`
        : 'the database is not empty'
    await expect(again).rejects.toThrow(says)
    expect(await digests(database)).toEqual(before)
  })

  test('of a newer program is refused with a sentence, and so is making one of its store', async () => {
    const { database, backUp } = await stage(place)
    const made = await backUp()
    const manifest = readManifest(made.folder)
    writeFileSync(path.join(made.folder, MANIFEST), JSON.stringify({ ...manifest, schema: 4711 }))
    const says =
      /^Cannot open the database: it was written by a newer program \(schema 4711, this one knows \d+\)$/
    const address = await place.address()
    const bringing = restore({ folder: made.folder, address, filesFolder: folder })
    await expect(bringing).rejects.toThrow(says)
    await expect(bringing).rejects.toBeInstanceOf(WrongDatabase)
    await database.db.updateTable('meta').set({ value: '4711' }).where('name', '=', 'schema').execute()
    await expect(backUp(NOON_MS + DAY_MS)).rejects.toThrow(says)
  })
})

describe('from one engine to the other', () => {
  eachEngine('a backup', (place) => {
    test('is brought back on SQLite', async () => {
      const { database, backUp } = await stage(place)
      const made = await backUp()
      const address: DatabaseAddress = { engine: 'sqlite', path: path.join(folder, 'other', 'crew.sqlite') }
      await restore({ folder: made.folder, address, filesFolder: path.join(folder, 'brought-back') })
      expect(await digests(await place.open(address))).toEqual(await digests(database))
    })
  })
})

describe('what is kept of backups', () => {
  const place = sqlitePlace()

  test('the newest N stay, and whatever this program did not name', async () => {
    const { backUp, backupsFolder } = await stage(place)
    for (const day of [0, 1, 2]) await backUp(NOON_MS + day * DAY_MS, 2)
    writeFileSync(path.join(backupsFolder, 'notes.txt'), 'not ours')
    const last = await backUp(NOON_MS + 3 * DAY_MS, 2)
    expect(last.dropped).toEqual(['swardhand-2026-05-05T14-00-00Z'])
    expect(readdirSync(backupsFolder).sort()).toEqual([
      'notes.txt',
      'swardhand-2026-05-06T14-00-00Z',
      'swardhand-2026-05-07T14-00-00Z',
    ])
  })

  test('a photo that has not changed takes no further room, and outlives the backup that had it first', async () => {
    const { backUp, filesFolder } = await stage(place)
    const [first, second] = [await backUp(NOON_MS, 1), await backUp(NOON_MS + DAY_MS, 1)]
    const [hash = ''] = readManifest(second.folder).files
    const copy = path.join(second.folder, 'files', hash.slice(0, 2), hash)
    expect(existsSync(first.folder)).toBe(false)
    expect(createHash('sha256').update(readFileSync(copy)).digest('hex')).toBe(hash)
    // Changed in its place, it does not change its copy.
    appendFileSync(blobsIn(filesFolder).pathOf(hash), 'changed')
    expect(await verifyBackup(second.folder)).toEqual([])
  })

  test('one that is broken off is not taken for a backup', async () => {
    const { backUp, address, backupsFolder } = await stage(place)
    if (address.engine !== 'sqlite') return
    rmSync(address.path)
    await expect(backUp()).rejects.toThrow(BackupError)
    expect(finishedIn(backupsFolder)).toEqual([])
  })

  test('nobody else on the machine can read it', async () => {
    const { backUp } = await stage(place)
    const { folder: made } = await backUp()
    expect(statSync(made).mode & 0o077).toBe(0)
    expect(statSync(path.join(made, 'database.sqlite')).mode & 0o077).toBe(0)
  })

  test('a lost photo is told, and a damaged one is not taken for the photo', async () => {
    const { backUp, filesFolder, database } = await stage(place)
    const [row] = await database.db.selectFrom('files').select('blob').execute()
    writeFileSync(blobsIn(filesFolder).pathOf(row?.blob ?? ''), 'damaged')
    expect(await backUp()).toMatchObject({ files: 1, missing: [row?.blob] })
    rmSync(blobsIn(filesFolder).pathOf(row?.blob ?? ''))
    expect(await backUp(NOON_MS + DAY_MS)).toMatchObject({ files: 1, missing: [row?.blob] })
  })
})

describe('a damaged backup is told apart and not brought back', () => {
  const place = sqlitePlace()
  const damage = async (harm: (made: string) => void) => {
    const { backUp } = await stage(place)
    const made = await backUp()
    harm(made.folder)
    const address = await place.address()
    await expect(restore({ folder: made.folder, address, filesFolder: folder })).rejects.toThrow(BackupError)
    if (address.engine === 'sqlite') expect(existsSync(address.path)).toBe(false)
    return verifyBackup(made.folder).catch((error: Error) => [error.message])
  }

  test('a byte of the store', async () => {
    const wrong = await damage((made) => {
      const file = path.join(made, 'database.sqlite')
      const bytes = readFileSync(file)
      const at =
        bytes.lastIndexOf('Test crew') > 0 ? bytes.lastIndexOf('Test crew') : bytes.indexOf('County 2')
      bytes[at] = 0x58
      writeFileSync(file, bytes)
    })
    expect(wrong.join()).toMatch(/holds something else|row/)
  })

  test('a photo', async () => {
    const wrong = await damage((made) => {
      const [hash = ''] = readManifest(made).files
      writeFileSync(path.join(made, 'files', hash.slice(0, 2), hash), 'another')
    })
    expect(wrong.join()).toMatch(/^the file [0-9a-f]{64} holds something else$/)
  })

  test('a photo that is gone', async () => {
    const wrong = await damage((made) => {
      const [hash = ''] = readManifest(made).files
      rmSync(path.join(made, 'files', hash.slice(0, 2), hash))
    })
    expect(wrong.join()).toMatch(/^the file [0-9a-f]{64} is missing$/)
  })

  test('a list that is cut', async () => {
    const wrong = await damage((made) => {
      const text = readFileSync(path.join(made, MANIFEST), 'utf8')
      writeFileSync(path.join(made, MANIFEST), text.slice(0, 100))
    })
    expect(wrong.join()).toContain('is damaged')
  })
})
