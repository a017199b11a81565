import { expect, test } from 'vitest'
import type { Format, PaperOrder, Reader } from '#src/papers/order.ts'
import { openDatabase } from '#src/store/open.ts'
import { keepRecord } from '#tests/helpers/keep-record.ts'
import { aProduct, aSite } from '#tests/helpers/rows.ts'
import { product } from '#tests/record/build.ts'
import { drawn, ordered } from './orders.ts'

/** Records of a page here. A few of them are put together at a time, and the store is asked for what stands beside these. */
const ROWS = 10

/** Statements for papers of so many records, each on a place of its own, with a product of its own. */
async function statements(sizes: readonly number[], parts: Partial<PaperOrder>, complete: boolean) {
  let asked = 0
  const database = await openDatabase(
    {
      engine: 'sqlite',
      path: ':memory:',
      pauseMs() {
        asked += 1
        return 0
      },
    },
    'practice',
  )
  const order = await ordered(database, async (store, personId) => {
    for (let at = 1; at <= Math.max(...sizes); at += 1) {
      const { id: siteId } = await aSite(store, { name: `Place ${at}` })
      const { body, revisionId } = await aProduct(store, personId, { name: `Invented ${at} SC` })
      const used = product({ name: body.name, ...(at % 2 === 0 ? { revisionId } : {}) })
      await keepRecord(store, {
        personId,
        record: {
          siteId,
          products: [used, product()],
          ...(complete ? {} : { county: { notRecorded: true } }),
        },
        row: { complete },
      })
    }
    return parts
  })
  const counts: number[] = []
  for (const number of sizes) {
    const before = asked
    const files = await drawn(database, { ...order, until: { ...order.until, number } }, { rows: ROWS })
    expect(files).toHaveLength(1)
    counts.push(asked - before)
  }
  await database.close()
  return counts
}

const cases: readonly [Reader, Format, boolean][] = [
  ['inspector', 'csv', true],
  ['inspector', 'json', false],
  ['inspector', 'pdf', false],
  ['customer', 'csv', false],
  ['treating', 'json', true],
]

test.each(cases)(
  'a paper for %s as %s (complete: %s) asks as often for a page as for two records, and the same for each page',
  async (reader, format, complete) => {
    const [few = 0, page = 0, pages = 0, more = 0] = await statements(
      [2, ROWS - 1, 2 * ROWS - 1, 3 * ROWS - 1],
      { reader, format },
      complete,
    )
    expect(page).toBe(few)
    expect(pages).toBeGreaterThan(page)
    expect(more - pages).toBe(pages - page)
  },
)
