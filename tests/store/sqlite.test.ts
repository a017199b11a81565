import { chmodSync, statSync, writeFileSync } from 'node:fs'
import { sql } from 'kysely'
import { expect, onTestFinished, test } from 'vitest'
import { openDatabase } from '#src/store/open.ts'
import { openSqlite } from '#src/store/sqlite.ts'
import { Database as Raw } from '#src/store/sqlite-engine.ts'
import { readOnly, savepoint, TransactionLost, write } from '#src/store/transaction.ts'
import { isUnwritable } from '#src/store/unwritable.ts'
import { sqlitePlace } from '#tests/helpers/engines.ts'
import { beat } from '#tests/helpers/heartbeat.ts'
import { aCrew, aCrewStore, aSite } from '#tests/helpers/rows.ts'

const place = sqlitePlace()
const pathOf = async () => {
  const address = await place.address()
  return address.engine === 'sqlite' ? address.path : ''
}

test.each([
  ['journal_mode', 'wal'],
  ['synchronous', 2],
  ['foreign_keys', 1],
])('every connection runs with %s %s', async (pragma, value) => {
  const path = await pathOf()
  for (const _ of [1, 2]) {
    const db = openSqlite({ path })
    onTestFinished(() => {
      db.close()
    })
    expect(db.pragma(pragma, { simple: true })).toBe(value)
  }
})

test('a new database is nobody else’s to read, whatever the umask; one that is there keeps its rights', async () => {
  const path = await pathOf()
  const before = process.umask(0)
  onTestFinished(() => {
    process.umask(before)
  })
  const rightsOf = (file: string) => statSync(file).mode & 0o777
  const db = openSqlite({ path })
  db.exec('create table one (a integer) strict')
  for (const file of [path, `${path}-wal`, `${path}-shm`])
    expect([file, rightsOf(file)]).toEqual([file, 0o600])
  db.close()
  chmodSync(path, 0o640)
  openSqlite({ path }).close()
  expect(rightsOf(path)).toBe(0o640)
})

test('a store in memory keeps its own settings and says so', async () => {
  const { db } = await place.open({ engine: 'sqlite', path: ':memory:' })
  const { rows } = await sql<{ journal_mode: string }>`pragma journal_mode`.execute(db)
  expect(rows).toEqual([{ journalMode: 'memory' }])
})

test('a file that is no database is refused', async () => {
  const path = await pathOf()
  writeFileSync(path, 'these are notes, not a database, and long enough to be seen as such'.repeat(20))
  await expect(openDatabase({ engine: 'sqlite', path }, 'practice')).rejects.toThrow(/not a database/)
})

test('tables are strict: a text is not taken for a number', async () => {
  const database = await place.open()
  await write(database, (db) => aCrew(db))
  const wrong = sql`update crews set book_revision = 'many'`.execute(database.db)
  await expect(wrong).rejects.toThrow(/cannot store TEXT value in INTEGER column/)
})

test('a write waits while another connection writes, without holding up anything else', async () => {
  const path = await pathOf()
  const database = await place.open({ engine: 'sqlite', path })
  const other = new Raw(path)
  onTestFinished(() => {
    other.close()
  })
  other.exec('begin immediate')
  const waiting = write(database, (db) => aCrew(db))
  setTimeout(() => other.exec('commit'), 300)
  const gaps = await beat({ everyMs: 5, until: waiting })
  expect((await waiting).key).toBe('test:1')
  // Each attempt may block for its short timeout; waiting inside SQLite would be one gap of 300 ms.
  expect(Math.max(...gaps)).toBeLessThan(250)
})

test('reading goes on while another process writes', async () => {
  const path = await pathOf()
  const database = await place.open({ engine: 'sqlite', path })
  await write(database, (db) => aCrew(db))
  const other = new Raw(path)
  onTestFinished(() => {
    other.close()
  })
  other.exec("begin immediate; update crews set name = 'changed'")
  expect(await readOnly(database, (db) => db.selectFrom('crews').select('name').execute())).toEqual([
    { name: 'Test crew' },
  ])
  other.exec('rollback')
})

test('patience ends: a lock that is never let go is an error that says the store cannot be written', async () => {
  const path = await pathOf()
  const database = await place.open({ engine: 'sqlite', path, patienceMs: 100 })
  const other = new Raw(path)
  onTestFinished(() => {
    other.close()
  })
  other.exec('begin immediate')
  const error = await write(database, (db) => aCrew(db)).catch((caught: unknown) => caught)
  expect(isUnwritable(error)).toBe(true)
  other.exec('rollback')
  expect(await write(database, (db) => aCrew(db))).toMatchObject({ key: 'test:1' })
})

test('those that queue behind a lock do not each wait as long again, and once it is gone all go on', async () => {
  const path = await pathOf()
  const patienceMs = 400
  const database = await place.open({ engine: 'sqlite', path, patienceMs })
  await write(database, (db) => aCrew(db))
  const other = new Raw(path)
  onTestFinished(() => {
    other.close()
  })
  other.exec('begin immediate')
  const began = performance.now()
  const tried = await Promise.allSettled(Array.from({ length: 8 }, () => write(database, (db) => aCrew(db))))
  expect(tried.map(({ status }) => status)).toEqual(Array(8).fill('rejected'))
  // One after the other they would take eight times their patience.
  expect(performance.now() - began).toBeLessThan(5 * patienceMs)
  expect(await readOnly(database, (db) => db.selectFrom('crews').select('key').execute())).toHaveLength(1)
  other.exec('rollback')
  const again = await Promise.all(Array.from({ length: 8 }, () => write(database, (db) => aCrew(db))))
  expect(again).toHaveLength(8)
})

test('an open connection is shown to who asked for it, and to nobody else', async () => {
  const seen: string[] = []
  const opened = (db: { readonly name: string }) => seen.push(db.name)
  const path = await pathOf()
  await place.open({ engine: 'sqlite', path, opened: (db) => void opened(db) })
  await place.open()
  expect(seen).toEqual([path])
})

test('a disk that fills up in the middle leaves nothing half written, and the store can be read', async () => {
  const database = await place.open()
  await write(database, async (db) => aSite((await aCrewStore(db)).store))
  const { rows } = await sql<{ pageCount: number }>`pragma page_count`.execute(database.db)
  await sql.raw(`pragma max_page_count = ${(rows[0]?.pageCount ?? 0) + 2}`).execute(database.db)
  const filling = write(database, async (db) => {
    const { store } = await aCrewStore(db)
    await savepoint(db, async () => {
      for (let n = 0; n < 50; n++) await aSite(store, { name: `site ${n}`, address: 'x'.repeat(2000) })
    })
  })
  const error = await filling.catch((caught: unknown) => caught)
  expect(isUnwritable(error)).toBe(true)
  const sites = await readOnly(database, (db) => db.selectFrom('sites').select('name').execute())
  expect(sites).toHaveLength(1)
})

test('a savepoint whose transaction is gone says so, with the reason', async () => {
  const database = await place.open()
  const lost = write(database, (db) =>
    savepoint(db, async () => {
      await sql`rollback`.execute(db)
      throw new Error('the reason')
    }),
  )
  const error = await lost.catch((caught: unknown) => caught)
  expect(error).toBeInstanceOf(TransactionLost)
  expect(error).toMatchObject({ cause: { message: 'the reason' } })
})

test('how many rows are wanted is said in words: as a parameter it would be prepared anew each time', async () => {
  const { db } = await place.open()
  const wanted = db.selectFrom('crews').select('id').limit(3).compile()
  expect(wanted.sql).toBe('select "id" from "crews" limit 3')
  expect(wanted.parameters).toEqual([])
})
