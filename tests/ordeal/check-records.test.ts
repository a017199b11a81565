import { expect, test } from 'vitest'
import { recorded } from '#src/record/not-recorded.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'
import { sqlitePlace } from '#tests/helpers/engines.ts'
import { keepAmendment, keepRecord } from '#tests/helpers/keep-record.ts'
import { anArea, aPerson, aProduct, aSite, inStore } from '#tests/helpers/rows.ts'
import { english, product, units } from '#tests/record/build.ts'
import { checkRecords, type RecordFindings } from './check-records.ts'
import type { Deed } from './people.ts'
import { fired } from './told.ts'

const place = sqlitePlace()

interface Staged {
  readonly store: CrewStore
  /** Keeps one whole application, as a finished log leaves it. */
  readonly keep: (notes: string, drawn?: string) => Promise<number>
}

/** What is found in a store with these records; each whole unless a test breaks it. */
async function foundIn(
  work: (staged: Staged) => Promise<unknown>,
  deeds: readonly Deed[] = [],
): Promise<RecordFindings> {
  const crewId = await inStore(place, async ({ store, crew }) => {
    const personId = (await aPerson(store)).id
    const { entryId, revisionId, body } = await aProduct(store, personId)
    const areaId = (await anArea(store, (await aSite(store)).id)).id
    const one = product({ name: body.name, entryId, revisionId })
    const mix = await store.mixes.create(
      personId,
      {
        products: [
          { name: body.name, entryId, revisionId, lineId: null, rate: units.per1000('0.4'), amount: null },
        ],
        adjuvants: [],
        made: units.gallons('2'),
        loads: 1,
        output: null,
        sprayerId: null,
        forId: null,
        places: [],
        weed: null,
      },
      NOON_MS,
    )
    const keep = async (notes: string, drawn = '0.5') => {
      const draft = { products: [one], notes: english(notes), mixDrawn: units.gallons(drawn) }
      const { id } = await store.drafts.create({ personId, mixId: mix.id, draft }, NOON_MS)
      await store.drafts.close(id, 'kept', NOON_MS)
      const rate = '0.4 oz wt/1000 ft2'
      const treatment = await store.treatments.add(
        {
          areaId,
          entryId,
          revisionId,
          personId,
          details: { product: one.name, rate, lineId: null, treatedFt2: '5000', amount: null, note: '' },
          treatedOn: '2025-06-30',
        },
        NOON_MS,
      )
      const number = await keepRecord(store, {
        personId,
        record: draft,
        row: { mixId: mix.id, drawn: draft.mixDrawn, treatments: [treatment] },
      })
      const amount = recorded(one.amount) ?? units.ounces('0')
      await store.stock.use({ number, version: 1, personId }, [{ product: one.name, amount, atMs: 0 }], 0)
      return number
    }
    await work({ store, keep })
    return crew.id
  })
  return checkRecords(await place.shared(), crewId, deeds)
}

const log = (text: string): Deed => ({ kind: 'log', fired: fired('log', text), notes: 'one', begins: true })
const nothing = { lost: [], doubled: [], wrong: [] }

test('records that were told of and kept once agree with every total', async () => {
  const found = await foundIn(({ keep }) => keep('one'), [log('R1 is recorded')])
  expect(found).toEqual(nothing)
})

test('a record that was told of and is not there is lost', async () => {
  const found = await foundIn(({ keep }) => keep('one'), [log('R2 is recorded')])
  expect(found).toEqual({ ...nothing, lost: ['record R2'] })
})

test('a log that is finished and left no record is lost', async () => {
  const found = await foundIn(async ({ store }) => {
    const personId = (await aPerson(store)).id
    const { id } = await store.drafts.create({ personId, mixId: null, draft: {} }, NOON_MS)
    await store.drafts.close(id, 'kept', NOON_MS)
  })
  expect(found.lost).toEqual(['1 records of 1 finished logs'])
})

test('two records of one log are one too many, as are two logs of one request', async () => {
  const { doubled } = await foundIn(
    async ({ keep }) => [await keep('one'), await keep('one')],
    [log('R1 is recorded')],
  )
  expect(doubled).toEqual(['record of "one"', 'log of "one"'])
})

test('an amendment that was told of is there, once, under its reason', async () => {
  const amend = (why: string): Deed => ({ kind: 'amend', fired: fired('amend', 'R1 is amended'), why })
  const reason = 'the county was typed wrong'
  const found = await foundIn(
    async ({ keep, store }) => keepAmendment(store, await keep('one'), { why: english(reason) }),
    [log('R1 is recorded'), amend(reason), amend('another')],
  )
  expect(found.lost).toEqual(['amendment "another" of R1'])
})

test('history and stock that are not the sum of the records are wrong', async () => {
  const { wrong } = await foundIn(
    async ({ keep, store }) => {
      const row = await store.records.find(await keep('one'))
      await store.records.voidTreatments(row?.treatments ?? [], NOON_MS)
      const [used] = await store.stock.list()
      if (used === undefined) throw new Error('nothing was used')
      const { product: name, amount } = used
      const twice = [name, name].map((one) => ({ product: one, amount, atMs: 0 }))
      await store.stock.use({ number: 1, version: 2, personId: used.personId }, twice, NOON_MS)
    },
    [log('R1 is recorded')],
  )
  expect(wrong).toEqual([
    'R1: 0 treatments of 1 products',
    '0 treatments of 1 products',
    expect.stringMatching(/^stock used 4 of what the records say is 2: .*, oz wt$/),
  ])
})

test('more drawn than was mixed is wrong', async () => {
  const { wrong } = await foundIn(({ keep }) => keep('one', '2.5'), [log('R1 is recorded')])
  expect(wrong).toEqual(['of mix 1 -0.5 is left, and 0 is said'])
})
