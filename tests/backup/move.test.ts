import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { sql } from 'kysely'
import { describe, expect, onTestFinished, test } from 'vitest'
import { moveStore } from '#src/backup/move.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { HAS_MOVED, NEWEST_SCHEMA } from '#src/store/migrate.ts'
import { type Database, type DatabaseAddress, isEmptyStore, lookInto, openDatabase } from '#src/store/open.ts'
import { digestTables } from '#src/store/rows.ts'
import { schemaAt } from '#src/store/schema-at.ts'
import { write } from '#src/store/transaction.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'
import { eachEngine, type Place, postgresPlace, sqlitePlace } from '#tests/helpers/engines.ts'
import { query } from '#tests/helpers/fresh-address.ts'
import { postgresUrl } from '#tests/helpers/postgres-url.ts'
import { resultOf, startProcess } from '#tests/helpers/processes.ts'
import { fillStore } from './fill-store.ts'

const digests = async ({ db }: Pick<Database, 'db'>) => digestTables(db, await schemaAt(NEWEST_SCHEMA))

function emptyFolder(): string {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-move-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  return folder
}

/** A store with rows in every table that nobody has open. */
async function filled(place: Place): Promise<DatabaseAddress> {
  const address = await place.address()
  const store = await openDatabase(address, 'live')
  await fillStore(store, emptyFolder())
  await store.close()
  return address
}

/** What another store says of itself beside the rows: nothing of this is compared. */
async function rowsAt(address: DatabaseAddress) {
  const store = await lookInto(address)
  try {
    const { meta: _, ...tables } = await digests(store)
    return { tables, hasMoved: store.hasMoved, purpose: store.purpose, schema: store.schema }
  } finally {
    await store.close()
  }
}

const url = postgresUrl()

/** From each engine to each, where both are there. */
function eachWay(name: string, suite: (from: Place, to: Place) => void): void {
  describe(`${name} from SQLite to SQLite`, () => suite(sqlitePlace(), sqlitePlace()))
  if (url === null) return
  describe(`${name} from SQLite to PostgreSQL`, () => suite(sqlitePlace(), postgresPlace(url)))
  describe(`${name} from PostgreSQL to SQLite`, () => suite(postgresPlace(url), sqlitePlace()))
}

eachWay('a move', (from, to) => {
  test('carries every row and every chain over, and leaves a store that nobody opens', async () => {
    const [old, fresh] = [await filled(from), await to.address()]
    const before = await rowsAt(old)
    const report = await moveStore(old, fresh)
    const after = await rowsAt(fresh)
    expect(after).toEqual({ ...before, hasMoved: false })
    expect(report.rows).toBeGreaterThan(100)
    for (const [table, rows] of Object.entries(report.tables)) expect(rows, table).toBeGreaterThan(0)
    expect(report.chains).toHaveLength(2)
    for (const { links, breaks } of report.chains) expect({ links, breaks }).toEqual({ links: 3, breaks: [] })
    await expect(openDatabase(old, 'live')).rejects.toThrow(HAS_MOVED)
    await expect(moveStore(old, await to.address())).rejects.toThrow(HAS_MOVED)
    // It can be read still, for whoever looks for what went wrong.
    expect(await rowsAt(old)).toEqual({ ...before, hasMoved: true })
  })

  test('lets work go on: ids begin behind those that were given out', async () => {
    const [old, fresh] = [await filled(from), await to.address()]
    await moveStore(old, fresh)
    const store = await to.open(fresh, 'live')
    const ids = await write(store, async (db) => {
      const { turns } = crewStore(db, 1)
      const turn = { personId: 1, command: 'rate', asked: {}, atMs: NOON_MS, day: '2026-05-04' }
      return [
        await turns.create({ ...turn, requestId: 'a' }),
        await turns.create({ ...turn, requestId: 'b' }),
      ]
    })
    const [first, second] = ids.map((one) => one?.id ?? 0)
    expect(first).toBeGreaterThan(6)
    expect(second).toBe((first ?? 0) + 1)
  })
})

eachEngine('what is not moved', (place) => {
  test('a store that somebody has open', async () => {
    const old = await filled(place)
    // On a server whoever is connected to the database counts, whatever the schema.
    const running = await openDatabase(old, 'live')
    onTestFinished(() => running.close())
    await expect(moveStore(old, await place.address())).rejects.toThrow(/somebody has it open. Stop the bot/)
    await write(running, (db) =>
      crewStore(db, 1).sites.create({ name: 'Still', address: 'Invented', details: {} as never }, NOON_MS),
    )
  })

  test('into a store that holds anything: it stays as it is', async () => {
    const [old, taken] = [await filled(place), await filled(place)]
    const before = await rowsAt(taken)
    await expect(moveStore(old, taken)).rejects.toThrow('Cannot move: the database is not empty')
    expect(await rowsAt(taken)).toEqual(before)
    expect((await rowsAt(old)).hasMoved).toBe(false)
  })

  test('into the empty tables of another schema or purpose', async () => {
    const old = await filled(place)
    const earlier = await place.address()
    await (await openDatabase(earlier, 'live', 1)).close()
    await expect(moveStore(old, earlier)).rejects.toThrow(/what is there has schema 1, and what comes/)
    const practice = await place.address()
    await (await openDatabase(practice, 'practice')).close()
    await expect(moveStore(old, practice)).rejects.toThrow(
      /is a practice database, and what comes a live one/,
    )
    const same = await place.address()
    await (await openDatabase(same, 'live')).close()
    await moveStore(old, same)
  })

  test('a store of an earlier schema', async () => {
    const earlier = await place.address()
    await (await openDatabase(earlier, 'live', 1)).close()
    await expect(moveStore(earlier, await place.address())).rejects.toThrow(/Start the program on it once/)
  })
})

describe('a move in which a row arrives as another', () => {
  const place = sqlitePlace()
  test.each([
    ['changed', 'areas', `update areas set name = 'Other' where id = new.id`, /areas holds something else/],
    [
      'missing',
      'record_products',
      'delete from record_products where id = new.id',
      /has \d+ rows in place of/,
    ],
  ])('that is %s is named, and nothing has moved', async (what, table, does, why) => {
    const [old, fresh] = [await filled(place), await place.address()]
    const store = await openDatabase(fresh, 'live')
    const when = 'when new.id = 2'
    await sql.raw(`create trigger odd after insert on ${table} ${when} begin ${does}; end`).execute(store.db)
    await store.close()
    const moving = moveStore(old, fresh)
    await expect(moving).rejects.toThrow(why)
    await expect(moving).rejects.toThrow(`first in ${table}: the row with id 2 is ${what}`)
    expect((await rowsAt(old)).hasMoved).toBe(false)
    expect((await rowsAt(fresh)).tables[table]?.rows).toBe(0)
  })
})

describe.skipIf(url === null)('a move that breaks off', () => {
  const place = sqlitePlace()
  const server = postgresPlace()
  test('leaves the new store empty and the old one as it was', async () => {
    const [old, fresh] = [await filled(place), await server.address()]
    if (fresh.engine !== 'postgres') throw new Error('Not a server')
    await (await openDatabase(fresh, 'live')).close()
    // The last of the tables to be filled refuses its rows.
    await query(fresh.url, `alter table ${fresh.schema}.ratings add constraint none check (id < 0)`)
    await expect(moveStore(old, fresh)).rejects.toThrow(/none/)
    const { tables } = await rowsAt(fresh)
    expect(Object.values(tables).every(({ rows }) => rows === 0)).toBe(true)
    await (await openDatabase(old, 'live')).close()
  })

  test('what arrives changed is not kept', async () => {
    const [old, fresh] = [await filled(place), await server.address()]
    if (fresh.engine !== 'postgres') throw new Error('Not a server')
    await (await openDatabase(fresh, 'live')).close()
    const { schema } = fresh
    await query(
      fresh.url,
      `create function ${schema}.other() returns trigger language plpgsql as 'begin new.name = ''other''; return new; end';
         create trigger other before insert on ${schema}.sites for each row execute function ${schema}.other()`,
    )
    await expect(moveStore(old, fresh)).rejects.toThrow(/sites holds something else/)
    expect((await rowsAt(fresh)).tables.sites?.rows).toBe(0)
  })
})

test('the command moves, says what it did, and ends with 0; a wrong place is told in a sentence', async () => {
  const from = await filled(sqlitePlaceOfFile)
  const to = path.join(emptyFolder(), 'new.sqlite')
  const [old, fresh] = [`sqlite:${from.engine === 'sqlite' ? from.path : ''}`, `sqlite:${to}`]
  const run = (...args: string[]) => resultOf(startProcess('src/backup/main.ts', ['move', ...args]))
  const moved = await run('--from', old, '--to', fresh)
  expect(moved).toMatchObject({ status: 0, errors: '' })
  expect(moved.output).toMatch(/^turns: 6$/m)
  expect(moved.output).toContain('3 links, the chain holds')
  expect(await isEmptyStore({ engine: 'sqlite', path: to })).toBe(false)
  expect(readFileSync(to).subarray(0, 15).toString()).toBe('SQLite format 3')
  const again = await run('--from', old, '--to', fresh)
  expect(again).toMatchObject({ status: 1, output: '', errors: `${HAS_MOVED}\n` })
  expect((await run('--from', 'crew.db', '--to', fresh)).errors).toContain('--from must be sqlite:PATH')
}, 60_000)
const sqlitePlaceOfFile = sqlitePlace()
