import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { sql } from 'kysely'
import { expect, onTestFinished, test } from 'vitest'
import type { Head } from '#src/record/chain.ts'
import { printHead } from '#src/record/chain.ts'
import { openDatabase } from '#src/store/open.ts'
import { type Transaction, write } from '#src/store/transaction.ts'
import { runVerify, verifyChains } from '#src/verify.ts'
import { eachEngine, type Place } from './helpers/engines.ts'
import { keepAmendment, keepRecord } from './helpers/keep-record.ts'
import { aCrewStore, aPerson } from './helpers/rows.ts'

/** Two crews: one with five records and an amendment, the other with two. Heads of both as they were printed. */
async function twoChains(place: Place) {
  const database = await place.open()
  const heads = await write(database, async (db) => {
    const made: Record<string, Head> = {}
    for (const [key, count] of [
      ['test:one', 5],
      ['test:two', 2],
    ] as const) {
      const { store } = await aCrewStore(db, { key })
      const { id: personId } = await aPerson(store)
      for (let at = 0; at < count; at += 1) await keepRecord(store, { personId })
      if (key === 'test:one') await keepAmendment(store, 2)
      const head = await store.records.head()
      if (head !== null) made[key] = head
    }
    return made
  })
  return { database, one: heads['test:one'] as Head, two: heads['test:two'] as Head }
}

/** Somebody with the database in their hands, past the program. */
const tamper = (db: Transaction, statement: string) => sql.raw(statement).execute(db)

const CREW_ONE = `(select id from crews where key = 'test:one')`
/** Takes records and their links out, from one number on up to another. */
const taken = (from: number, to: number) => [
  `delete from personal_values where link_id in (select id from chain_links where seq between ${from} and ${to} and crew_id = ${CREW_ONE})`,
  `delete from record_products where record_id in (select id from records where number between ${from} and ${to} and crew_id = ${CREW_ONE})`,
  `delete from records where number between ${from} and ${to} and crew_id = ${CREW_ONE}`,
  `delete from chain_links where seq between ${from} and ${to} and crew_id = ${CREW_ONE}`,
]
const DELETE_TAIL = taken(5, 6)

const breaksOf = async (place: Place, statements: readonly string[], withHead = false) => {
  const { database, one } = await twoChains(place)
  await write(database, async (db) => {
    for (const statement of statements) await tamper(db, statement)
  })
  const chains = await verifyChains(database, { rows: 2, ...(withHead ? { against: one } : {}) })
  return chains.flatMap(({ crew, breaks }) => breaks.map((found) => ({ crew, ...found })))
}

eachEngine('verifyChains()', (place) => {
  test('finds chains that hold, and how many records they have', async () => {
    const { database, one, two } = await twoChains(place)
    expect(await verifyChains(database, { rows: 2 })).toEqual([
      { crew: 'test:one', records: 5, head: one, breaks: [] },
      { crew: 'test:two', records: 2, head: two, breaks: [] },
    ])
    for (const against of [one, two, { hash: one.hash }])
      expect((await verifyChains(database, { against })).flatMap(({ breaks }) => breaks)).toEqual([])
  })

  test('a cut tail shows only against a head that was printed before', async () => {
    expect(await breaksOf(place, DELETE_TAIL)).toEqual([])
    expect(await breaksOf(place, DELETE_TAIL, true)).toEqual([{ crew: null, kind: 'cut-tail', seq: 5 }])
  })

  test('a chain that was rewritten whole shows against a head that was printed before', async () => {
    const { database, one } = await twoChains(place)
    await write(database, async (db) => {
      for (const statement of DELETE_TAIL) await tamper(db, statement)
      const { store } = await aCrewStore(db, { key: 'test:one' })
      const { id: personId } = await aPerson(store)
      for (let at = 0; at < 4; at += 1) await keepRecord(store, { personId, record: { county: 'Elsewhere' } })
    })
    const against = (await verifyChains(database, { against: one })).flatMap(({ breaks }) => breaks)
    expect(against).toEqual([{ kind: 'rewritten', seq: 6 }])
    expect((await verifyChains(database)).flatMap(({ breaks }) => breaks)).toEqual([])
  })

  test('a changed text, a changed personal value, a link that is gone', async () => {
    expect(
      await breaksOf(place, [
        `update chain_links set body = replace(body, 'Demo County', 'Other') where seq = 3 and crew_id = ${CREW_ONE}`,
      ]),
    ).toEqual([{ crew: 'test:one', kind: 'changed-text', seq: 3 }])
    expect(
      await breaksOf(place, [
        `update personal_values set value = '"Somebody Else"' where path = 'customerName' and link_id = (select id from chain_links where seq = 4 and crew_id = ${CREW_ONE})`,
      ]),
    ).toEqual([{ crew: 'test:one', kind: 'personal-changed', seq: 4, paths: ['customerName'] }])
    expect(await breaksOf(place, taken(4, 4))).toEqual([{ crew: 'test:one', kind: 'missing-link', seq: 4 }])
  })

  test('two links that changed places', async () => {
    const swap = (from: number, to: number) =>
      `update chain_links set seq = ${to} where seq = ${from} and crew_id = ${CREW_ONE}`
    const found = await breaksOf(place, [swap(2, 99), swap(3, 2), swap(99, 3)])
    expect(found.map(({ crew, seq }) => [crew, seq])).toContainEqual(['test:one', 2])
    expect(found.every(({ crew }) => crew === 'test:one')).toBe(true)
  })
})

async function verified(args: readonly string[], url: string) {
  const lines: string[] = []
  const status = await runVerify(args, { DATABASE_URL: url }, (line) => lines.push(line))
  return { status, lines, last: lines.at(-1) ?? '' }
}

async function keptFile() {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-verify-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  const file = path.join(folder, 'crew.sqlite')
  const database = await openDatabase({ engine: 'sqlite', path: file }, 'live')
  const head = await write(database, async (db) => {
    const { store } = await aCrewStore(db)
    const { id: personId } = await aPerson(store)
    await keepRecord(store, { personId })
    return store.records.head()
  })
  return { url: `sqlite:${file}`, database, head: head as Head, folder }
}

test('verify ends with one JSON object and status 0 only when every chain holds', async () => {
  const { url, database, head } = await keptFile()
  expect(await verified(['--json', '--against', printHead(head)], url)).toMatchObject({
    status: 0,
    last: '{"records":1,"breaks":[]}',
  })
  expect((await verified(['--json', `--against=${'0'.repeat(64)}`], url)).status).toBe(1)
  await write(database, (db) =>
    tamper(db, `update chain_links set body = replace(body, 'Demo County', 'Other')`),
  )
  await database.close()
  const broken = await verified(['--json'], url)
  expect(broken.status).toBe(1)
  expect(JSON.parse(broken.last)).toEqual({
    records: 1,
    breaks: [{ crew: 'test:1', kind: 'changed-text', seq: 1 }],
  })
  expect(broken.lines[1]).toMatch(/^BROKEN {2}test:1: /)
})

test('verify says so where nobody has written anything yet', async () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-verify-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  const file = path.join(folder, 'new.sqlite')
  await (await openDatabase({ engine: 'sqlite', path: file }, 'live')).close()
  expect(await verified([], `sqlite:${file}`)).toEqual({
    status: 0,
    lines: ['holds   no crew has written anything here yet'],
    last: 'holds   no crew has written anything here yet',
  })
})

test('verify makes no database of its own, and refuses what it does not understand', async () => {
  const { url, folder, database } = await keptFile()
  expect((await verified([], `sqlite:${path.join(folder, 'none.sqlite')}`)).status).toBe(2)
  expect((await verified(['--against', 'soon'], url)).status).toBe(2)
  expect((await verified(['--fast'], url)).status).toBe(2)
  await database.close()
})
