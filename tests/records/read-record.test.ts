import { expect, test } from 'vitest'
import type { ApplicationRecord } from '#src/record/record.ts'
import { recordPages, untilNow } from '#src/records/pages.ts'
import { readRecord } from '#src/records/read-record.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { keepAmendment, keepRecord } from '#tests/helpers/keep-record.ts'
import { aPerson, inStore } from '#tests/helpers/rows.ts'
import { english, record } from '#tests/record/build.ts'

eachEngine('readRecord()', (place) => {
  test('gives the record as written, its amendments, and how it stands after them', () =>
    inStore(place, async ({ store }) => {
      const { id: personId } = await aPerson(store)
      const number = await keepRecord(store, { personId })
      await keepRecord(store, { personId })
      await keepAmendment(store, number)
      await keepAmendment(store, number, {
        number: 'R1-A2',
        why: english('the job was on another lawn'),
        changes: [],
        voids: true,
      })
      const found = await readRecord(store, number)
      expect(found).toMatchObject({ kind: 'read', misfit: null, row: { number: 1 } })
      if (found?.kind !== 'read') throw new Error('Cannot read the record just kept')
      expect(found.original).toEqual(record({ number: 'R1' }))
      expect(found.current.record).toEqual(record({ number: 'R1', county: 'Other County' }))
      expect(found.amendments.map(({ why }) => why)).toEqual([
        english('typed the wrong county'),
        english('the job was on another lawn'),
      ])
      expect(found.current.voidedBy?.number).toBe('R1-A2')
      expect(await readRecord(store, 9)).toBeUndefined()
    }))

  test('says "removed" where personal values were taken out', () =>
    inStore(place, async ({ store }) => {
      const { id: personId } = await aPerson(store)
      const number = await keepRecord(store, { personId })
      await keepAmendment(store, number)
      await store.records.removePersonal(number)
      const found = await readRecord(store, number)
      expect(found).toMatchObject({
        original: { customerName: { removed: true }, county: 'Demo County' },
        amendments: [{ by: { removed: true }, why: { removed: true } }],
        current: { record: { county: 'Other County' } },
      })
    }))

  test('stops before an amendment that does not follow, and names it', () =>
    inStore(place, async ({ store }) => {
      const { id: personId } = await aPerson(store)
      const number = await keepRecord(store, { personId })
      await keepAmendment(store, number)
      await keepAmendment(store, number, { number: 'R1-A2' })
      expect(await readRecord(store, number)).toMatchObject({
        misfit: { amendment: 'R1-A2', why: 'not-what-stood-before', field: 'county' },
        current: { record: { county: 'Other County' } },
      })
    }))

  test('a link that holds no record is unreadable, and no error', () =>
    inStore(place, async ({ store }) => {
      const { id: personId } = await aPerson(store)
      const broken = { county: 7 } as unknown as Partial<ApplicationRecord>
      const number = await keepRecord(store, { personId, record: broken })
      expect(await readRecord(store, number)).toMatchObject({ kind: 'unreadable', row: { number } })
    }))
})

eachEngine('recordPages()', (place) => {
  test('hands out every record once, by number, a page at a time', () =>
    inStore(place, async ({ store }) => {
      const { id: personId } = await aPerson(store)
      for (const _ of Array(5)) await keepRecord(store, { personId })
      const until = await untilNow(store)
      const sizes: number[] = []
      const numbers: number[] = []
      for await (const page of recordPages((work) => work(store), {}, { until, rows: 2 })) {
        sizes.push(page.rows.length)
        numbers.push(...page.rows.map(({ number }) => number))
      }
      expect(sizes).toEqual([2, 2, 1])
      expect(numbers).toEqual([1, 2, 3, 4, 5])
    }))

  test('shows one picture: what comes in while it reads is left out', () =>
    inStore(place, async ({ store }) => {
      const { id: personId } = await aPerson(store)
      for (const _ of Array(3)) await keepRecord(store, { personId })
      const until = await untilNow(store)
      const seen: string[] = []
      for await (const page of recordPages((work) => work(store), {}, { until, rows: 1 })) {
        const [found] = page.records
        if (found?.kind !== 'read') throw new Error('Cannot read a record just kept')
        seen.push(`${found.original.number} ${found.amendments.length}`)
        await keepRecord(store, { personId })
        await keepAmendment(store, 3)
      }
      expect(seen).toEqual(['R1 0', 'R2 0', 'R3 0'])
    }))

  test('keeps to its filter', () =>
    inStore(place, async ({ store }) => {
      const { id: personId } = await aPerson(store)
      for (const day of ['2025-05-31', '2025-06-01', '2025-06-30', '2025-07-01'])
        await keepRecord(store, { personId, record: { date: day } })
      const filter = { from: '2025-06-01', to: '2025-06-30' }
      const days: (string | null)[] = []
      for await (const page of recordPages((work) => work(store), filter, { until: await untilNow(store) }))
        days.push(...page.rows.map(({ appliedOn }) => appliedOn))
      expect(days).toEqual(['2025-06-01', '2025-06-30'])
    }))
})
