import { expect, test } from 'vitest'
import { claimDue } from '#src/store/deliveries.ts'
import type { SqliteDatabase } from '#src/store/sqlite-engine.ts'
import { write } from '#src/store/transaction.ts'
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

test('a mix, a whole log, and claiming what is due read no growing table from end to end', async () => {
  const heard = new Set<string>()
  let connection: SqliteDatabase | undefined
  const practice = await openPractice((db) => {
    connection = db
    listen(db, heard)
  })
  const { database } = practice.bot
  await practice.type(MIX)
  await (await practice.readyLog()).keep()
  await practice.type(MIX)
  await write(database, (db) =>
    claimDue(db, database.words, { nowMs: practice.nowMs, leaseMs: 60_000, limit: 5 }),
  )
  const asked = [...heard].filter((text) => /^\s*(select|update|delete|with)\b/i.test(text))
  expect(asked.length).toBeGreaterThan(20)
  const scans = asked.flatMap((text) => {
    const plan = connection === undefined ? [] : planOf(connection, text)
    return plan
      .filter((step) => GROWING.some((table) => new RegExp(`^SCAN ("?${table}"?)\\b`).test(step)))
      .map((step) => `${step}: ${text}`)
  })
  await practice.close()
  expect(scans).toEqual([])
})

test('a statement that does read a table from end to end is seen', async () => {
  let connection: SqliteDatabase | undefined
  const practice = await openPractice((db) => {
    connection = db
  })
  const plan = connection && planOf(connection, 'select id from treatments where details = ?')
  await practice.close()
  expect(plan).toEqual(['SCAN treatments'])
})
