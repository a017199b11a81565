import { expect, test } from 'vitest'
import type { RecordDraft } from '#src/record/record.ts'
import { pastOfRepeat, pastOnGround } from '#src/records/ground-past.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { keepRecord } from '#tests/helpers/keep-record.ts'
import { anArea, aPerson, aProduct, aSite, type InStore, inStore } from '#tests/helpers/rows.ts'

/** A lawn of 6,000 ft² with a crew that sprays it. */
async function lawn({ store }: InStore) {
  const { id: personId } = await aPerson(store)
  const { entryId, revisionId, body } = await aProduct(store, personId)
  const site = await aSite(store)
  const area = await anArea(store, site.id)
  const treat = (treatedOn: string, treatedFt2: string) =>
    store.treatments.add(
      {
        ...{ areaId: area.id, entryId, revisionId, personId, treatedOn },
        details: { product: body.name, rate: '1 fl oz/A', lineId: null, treatedFt2, amount: null, note: '' },
      },
      0,
    )
  /** Spots of 600 ft², unless another coverage is given. */
  const log = async (date: string, parts: RecordDraft = {}) => {
    const treatments = [await treat(date, parts.coverage === 'whole area' ? '6000' : '600')]
    const record = { coverage: 'spots', ...parts, date, siteId: site.id, areaId: area.id } as const
    return { treatments, number: await keepRecord(store, { personId, record, row: { treatments } }) }
  }
  const past = async (on: string, draft: RecordDraft) =>
    (await pastOnGround(store, { area, draft: { coverage: 'spots', ...draft }, on })).map(
      (one) => `${one.on} ${one.sameGround}`,
    )
  return { store, area, treat, log, past }
}

eachEngine('pastOnGround()', (place) => {
  test('a chain of plain answers tells the ground, as far back as it goes', () =>
    inStore(place, async (inside) => {
      const { log, past } = await lawn(inside)
      await log('2026-03-02')
      await log('2026-04-06', { sameGround: 'same spots' })
      await log('2026-05-04', { sameGround: 'same spots' })
      expect(await past('2026-06-01', { sameGround: 'same spots' })).toEqual([
        '2026-03-02 true',
        '2026-04-06 true',
        '2026-05-04 true',
      ])
      expect(await past('2026-06-01', { sameGround: 'other spots' })).toEqual([
        '2026-03-02 unknown',
        '2026-04-06 unknown',
        '2026-05-04 false',
      ])
    }))

  test('what went over the whole area, with a record or without, was on all of it', () =>
    inStore(place, async (inside) => {
      const { log, treat, past } = await lawn(inside)
      await treat('2026-03-02', '6000')
      await log('2026-04-06', { coverage: 'whole area' })
      await treat('2026-04-20', '600')
      await log('2026-05-04')
      expect(await past('2026-06-01', { sameGround: 'other spots' })).toEqual([
        '2026-03-02 true',
        '2026-04-06 true',
        '2026-04-20 unknown',
        '2026-05-04 false',
      ])
      const all = await past('2026-06-01', { coverage: 'whole area' })
      expect(all.every((one) => one.endsWith('true'))).toBe(true)
    }))

  test('two products of one tank are one job, and the answer is about both', () =>
    inStore(place, async (inside) => {
      const { treat, past } = await lawn(inside)
      await treat('2026-05-04', '600')
      await treat('2026-05-04', '600')
      expect(await past('2026-06-01', { sameGround: 'same spots' })).toEqual([
        '2026-05-04 true',
        '2026-05-04 true',
      ])
    }))

  test('what comes later is no past, nor is a void record', () =>
    inStore(place, async (inside) => {
      const { store, log, past } = await lawn(inside)
      const voided = await log('2026-05-04')
      await store.records.voidTreatments(voided.treatments, 0)
      await log('2026-06-08')
      expect(await past('2026-06-01', { sameGround: 'same spots' })).toEqual([])
    }))

  test('a kept record leaves its own treatments out; of its day, only what was kept before it is its past', () =>
    inStore(place, async (inside) => {
      const { store, area, log } = await lawn(inside)
      await log('2026-05-04')
      const own = await log('2026-05-04', { sameGround: 'other spots' })
      await log('2026-05-04')
      const job = { area, draft: { coverage: 'spots', sameGround: 'other spots' }, on: '2026-05-04' } as const
      const found = await pastOnGround(store, { ...job, kept: own })
      expect(found.map(({ sameGround }) => sameGround)).toEqual([false, 'unknown'])
    }))
})

eachEngine('pastOfRepeat()', (place) => {
  test('the job itself counts, and of what came after it nobody told the ground', () =>
    inStore(place, async (inside) => {
      const { store, area, log } = await lawn(inside)
      await log('2026-04-06')
      const own = await log('2026-05-04', { sameGround: 'other spots' })
      await log('2026-05-18')
      const job = { area, draft: { coverage: 'spots', sameGround: 'other spots' }, on: '2026-05-04' } as const
      const found = await pastOfRepeat(store, { ...job, kept: own }, '2026-06-01')
      expect(found.map(({ on, sameGround }) => `${on} ${sameGround}`)).toEqual([
        '2026-04-06 false',
        '2026-05-04 true',
        '2026-05-18 unknown',
      ])
    }))
})
