import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { expect, test } from 'vitest'
import { columns, tableRows } from '#src/papers/columns.ts'
import { paperRecords } from '#src/papers/source.ts'
import type { Json } from '#src/record/canonical.ts'
import { nextLink } from '#src/record/chain.ts'
import { seal } from '#src/record/seal.ts'
import { PAGE_ROWS, type WithStore } from '#src/records/pages.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { RecordRow } from '#src/store/records.ts'
import { STANDING } from '#tests/helpers/keep-record.ts'
import { record, saltOf } from '#tests/record/build.ts'
import { words } from './orders.ts'

const RECORDS = 20_000
/** What a million records may add to the memory of the bot. */
const MOST_GROWTH_BYTES = 60 * 1024 * 1024

const link = nextLink(null, { kind: 'record', sealed: seal(record() as unknown as Json, saltOf) })
const row = (number: number): RecordRow => ({
  id: number,
  number,
  linkId: number,
  personId: 1,
  createdAtMs: 0,
  ...STANDING,
  siteId: number,
})

/** A store that makes its rows up while it is read, each with its own copy of an invented record. */
function endlessStore(onPage: (after: number) => void): WithStore {
  const numbers = (after: number, limit: number) =>
    Array.from({ length: Math.min(limit, RECORDS - after) }, (_, at) => after + at + 1)
  const records = {
    list: async (_filter: unknown, { after, limit }: { after: number; limit: number }) => {
      onPage(after)
      return numbers(after, limit).map(row)
    },
    linksOfAll: async () => () => [structuredClone(link)],
  }
  // A place for each record: only names of those that stand on the page are asked for.
  const sites = {
    namesOf: async (ids: readonly number[]) => {
      expect(ids.length).toBeLessThanOrEqual(PAGE_ROWS)
      return new Map(ids.map((id) => [id, `Place ${id}`]))
    },
  }
  return (work) => work({ records, sites } as unknown as CrewStore)
}

function collectGarbage(): void {
  setFlagsFromString('--expose-gc')
  runInNewContext('gc')()
}

test('a table of 20,000 records holds one page of them at a time', async () => {
  const order = {
    crewId: 1,
    reader: 'inspector',
    format: 'csv',
    filter: {},
    until: { number: RECORDS, head: null },
    day: '2025-07-04',
    asked: 'All records',
  } as const
  let written = 0
  const pages: number[] = []
  const growth: number[] = []
  const withStore = endlessStore((after) => {
    // The page before was let go whole before the next is read.
    expect(after).toBe(written)
    pages.push(after)
  })
  collectGarbage()
  const before = process.memoryUsage().heapUsed
  for await (const few of paperRecords({ order, words, withStore }, {}))
    for (const one of few) {
      for (const line of tableRows(one)) for (const { cell } of columns) cell(line)
      written += 1
      expect(one.site).toBe(`Place ${written}`)
      if (written % 5000 !== 0) continue
      collectGarbage()
      growth.push(process.memoryUsage().heapUsed - before)
    }
  expect(written).toBe(RECORDS)
  expect(pages.slice(0, 3)).toEqual([0, PAGE_ROWS, 2 * PAGE_ROWS])
  expect(Math.max(...growth)).toBeLessThan(MOST_GROWTH_BYTES)
  // Four times as many records need no more than a quarter of them did.
  expect((growth.at(-1) ?? 0) - (growth[0] ?? 0)).toBeLessThan(MOST_GROWTH_BYTES / 10)
}, 120_000)
