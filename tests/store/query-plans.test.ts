import { expect, onTestFinished, test } from 'vitest'
import { furthestDay } from '#src/desk/clock.ts'
import { type CrewStore, crewStore } from '#src/store/crew-store.ts'
import { listCrews } from '#src/store/crews-of.ts'
import { claimDue } from '#src/store/deliveries.ts'
import type { SqliteDatabase } from '#src/store/sqlite-engine.ts'
import { write } from '#src/store/transaction.ts'
import { mayHaveWork } from '#src/store/waiting-work.ts'
import { MIX, openPractice } from '#tests/bench/practice.ts'

/** Tables to which a crew adds for as long as it works. Those of its book and its people stay small. */
const GROWING = [
  'turns',
  'files',
  'sprayer_events',
  'treatments',
  'deliveries',
  'walks',
  'plant_flags',
  'mixes',
  'drafts',
  'chain_links',
  'personal_values',
  'records',
  'record_products',
  'visits',
  'plots',
  'ratings',
  'stock_movements',
  'calibrations',
]

/** Notes every statement that is prepared. */
function listen(db: SqliteDatabase, heard: Set<string>): void {
  const prepare = db.prepare.bind(db)
  db.prepare = ((text: string) => {
    heard.add(text)
    return prepare(text)
  }) as typeof db.prepare
}

/** How SQLite would run a statement, a line a step. */
function planOf(db: SqliteDatabase, text: string): string[] {
  const marks = text.match(/\?/g)?.length ?? 0
  const rows = db.prepare(`explain query plan ${text}`).all(new Array(marks).fill(null))
  return rows.map((row) => (row as { detail: string }).detail)
}

/** A practice crew whose statements are heard, and how each of them would be run. */
async function overheard() {
  const heard = new Set<string>()
  let connection: SqliteDatabase | undefined
  const practice = await openPractice((db) => {
    connection = db
    listen(db, heard)
  })
  onTestFinished(() => practice.close())
  const plan = (text: string) => (connection === undefined ? [] : planOf(connection, text))
  return { practice, heard, plan }
}

test('a mix, a whole log, and claiming what is due read no growing table from end to end', async () => {
  const { practice, heard, plan } = await overheard()
  const { database } = practice.bot
  await practice.type(MIX)
  await (await practice.readyLog()).keep()
  await practice.type(MIX)
  await write(database, (db) =>
    claimDue(db, database.words, { nowMs: practice.nowMs, leaseMs: 60_000, limit: 5 }),
  )
  await mayHaveWork(database, practice.nowMs, furthestDay(practice.nowMs))
  const asked = [...heard].filter((text) => /^\s*(select|update|delete|with)\b/i.test(text))
  expect(asked.length).toBeGreaterThan(20)
  const scans = asked.flatMap((text) =>
    plan(text)
      .filter((step) => GROWING.some((table) => new RegExp(`^SCAN ("?${table}"?)\\b`).test(step)))
      .map((step) => `${step}: ${text}`),
  )
  expect(scans).toEqual([])
})

/** What is read, and the step by which it is found: by more than the crew, so that its other rows stay unread. */
const READS: readonly (readonly [
  what: string,
  step: RegExp,
  read: (store: CrewStore) => Promise<unknown>,
])[] = [
  [
    'the newest records of a person',
    /records_by_person \(crew_id=\? AND person_id=\?\)$/,
    (store) => store.records.listNewest({ personId: 1 }, 20),
  ],
  [
    'older records of a person',
    /records_by_person \(crew_id=\? AND person_id=\? AND number<\?\)$/,
    (store) => store.records.listNewest({ personId: 1 }, 20, 7),
  ],
  [
    'the products of a record that is amended',
    /record_products_by_record \(crew_id=\? AND record_id=\?\)$/,
    async (store) => {
      const record = await store.records.find(1)
      if (record === undefined) throw new Error('Nothing was logged')
      await store.records.restate(record.id, record, ['Dunvarrow 2 SC'])
    },
  ],
  [
    'what was entered of a product',
    /stock_entered \(crew_id=\? AND product=\?\)$/,
    (store) => store.stock.entered('Dunvarrow 2 SC'),
  ],
  [
    'the records that lack something',
    /records_lacking \(crew_id=\?\)$/,
    (store) => store.records.listNewest({ complete: false }, 20),
  ],
  [
    'the looks on an area',
    /visits_by_area \(crew_id=\? AND area_id=\?\)$/,
    (store) => store.visits.ofArea(1),
  ],
]

test.each(READS)('%s are found by an index, and already in order', async (_what, step, read) => {
  const { practice, heard, plan } = await overheard()
  await (await practice.readyLog()).keep()
  const { database } = practice.bot
  await write(database, async (db) => {
    const [crew] = await listCrews(db)
    await read(crewStore(db, crew?.id ?? 0))
  })
  const plans = [...heard].filter((text) => /^(select|delete)/.test(text)).map(plan)
  const own = plans.find((steps) => steps.some((one) => step.test(one)))
  expect(own ?? plans).toEqual([expect.stringMatching(step)])
})

test('a record of some days is looked for by day, and asked for its product alone', async () => {
  const { practice, heard, plan } = await overheard()
  await write(practice.bot.database, (db) =>
    crewStore(db, 1).records.listNewest(
      { from: '2026-07-01', to: '2026-07-01', product: 'Dunvarrow 2 SC' },
      200,
    ),
  )
  const [steps = []] = [...heard].filter((text) => /from "records".*exists/.test(text)).map(plan)
  const reads = steps.filter((step) => step.startsWith('SEARCH'))
  expect(reads).toEqual([
    expect.stringMatching(/records_by_day \(crew_id=\? AND applied_on>\? AND applied_on<\?\)$/),
    expect.stringMatching(/record_products_by_name \(crew_id=\? AND name=\? AND record_id=\?\)$/),
  ])
})

test('a property is found by its name, however many there are', async () => {
  const { practice, heard, plan } = await overheard()
  await practice.type(MIX)
  const asked = [...heard].filter((text) => /from "sites"/.test(text))
  expect(asked.map(plan)).toEqual([[expect.stringMatching(/sites_by_crew \(crew_id=\? AND name=\?\)$/)]])
})

test('answers of a person’s day are found without a look at those of anybody else', async () => {
  const { practice, heard, plan } = await overheard()
  await write(practice.bot.database, (db) =>
    crewStore(db, 1).turns.list({ personId: 1, day: '2026-07-01', command: 'mix', limit: 20 }),
  )
  const [steps = []] = [...heard].filter((text) => /from "turns".*"number" >=/.test(text)).map(plan)
  const [rows, numbers, ...ends] = steps.filter((step) => step.startsWith('SEARCH'))
  expect(rows).toMatch(/ \(crew_id=\? AND number=\?\)$/)
  expect(numbers).toMatch(
    /COVERING INDEX turns_by_person \(crew_id=\? AND person_id=\? AND number>\? AND number<\?\)$/,
  )
  expect(ends).toHaveLength(2)
  for (const step of ends) expect(step).toMatch(/COVERING INDEX turns_by_day \(crew_id=\? AND day=\?\)$/)
  expect(steps.join('\n')).not.toMatch(/SCAN turns|TEMP B-TREE/)
})

test('a statement that does read a table from end to end is seen', async () => {
  const { plan } = await overheard()
  expect(plan('select id from treatments where details = ?')).toEqual(['SCAN treatments'])
})
