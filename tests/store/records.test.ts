import { expect, test } from 'vitest'
import { reply } from '#src/conversation/reply.ts'
import { asTyped } from '#src/conversation/text.ts'
import { verifyChain } from '#src/record/chain.ts'
import { unseal } from '#src/record/seal.ts'
import { draftNonce } from '#src/store/drafts.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { keepAmendment, keepRecord } from '#tests/helpers/keep-record.ts'
import { aPerson, aSite, type InStore, inStore } from '#tests/helpers/rows.ts'
import { record } from '#tests/record/build.ts'

const keepOne = (
  { store }: Pick<InStore, 'store'>,
  personId: number,
  row: Parameters<typeof keepRecord>[1]['row'] = {},
) => keepRecord(store, { personId, row })

eachEngine('records in the store', (place) => {
  test('are numbered from 1 and stand in one chain that holds', () =>
    inStore(place, async ({ store }) => {
      const person = await aPerson(store)
      const numbers = [await keepOne({ store }, person.id), await keepOne({ store }, person.id)]
      expect(numbers).toEqual([1, 2])
      const links = await store.records.pageLinks(0, 10)
      expect(links.map(({ seq }) => seq)).toEqual([1, 2])
      expect(verifyChain(links)).toEqual([])
      expect(unseal(links[0]?.entry.sealed ?? { open: null, kept: {} })).toEqual(record({ number: 'R1' }))
      expect((await store.records.pageLinks(1, 10)).map(({ seq }) => seq)).toEqual([2])
    }))

  test('an amendment is a further link of the same record', () =>
    inStore(place, async ({ store }) => {
      const person = await aPerson(store)
      const number = await keepOne({ store }, person.id)
      await keepOne({ store }, person.id)
      await keepAmendment(store, number)
      const links = await store.records.linksOf(number)
      expect(links.map(({ seq, entry }) => [seq, entry.kind])).toEqual([
        [1, 'record'],
        [3, 'amendment'],
      ])
      expect((await store.records.linksOf(number, 2)).length).toBe(1)
      expect(verifyChain(await store.records.pageLinks(0, 10))).toEqual([])
    }))

  test('personal values can be taken out, and the chain still holds', () =>
    inStore(place, async ({ store }) => {
      const person = await aPerson(store)
      const number = await keepOne({ store }, person.id)
      expect(await store.records.removePersonal(number, ['customerName'])).toBe(1)
      expect(await store.records.removePersonal(number)).toBeGreaterThan(3)
      const links = await store.records.pageLinks(0, 10)
      expect(verifyChain(links)).toEqual([])
      expect(JSON.stringify(links)).not.toContain('Ottiline')
      expect(unseal(links[0]?.entry.sealed ?? { open: null, kept: {} })).toMatchObject({
        customerName: { removed: true },
        county: 'Demo County',
      })
    }))

  test('are found by site, person, product, day and completeness', () =>
    inStore(place, async ({ store }) => {
      const person = await aPerson(store)
      const site = await aSite(store)
      await keepOne({ store }, person.id)
      const other = { siteId: site.id, appliedOn: '2025-07-02', complete: false } as const
      await keepOne({ store }, person.id, other)
      const numbers = async (filter: Parameters<typeof store.records.list>[0]) =>
        (await store.records.list(filter, { limit: 10 })).map(({ number }) => number)
      expect(await numbers({})).toEqual([1, 2])
      expect(await numbers({ siteId: site.id })).toEqual([2])
      expect(await numbers({ personId: person.id, product: 'Invented 75 WDG' })).toEqual([1, 2])
      expect(await numbers({ product: 'Other' })).toEqual([])
      expect(await numbers({ from: '2025-07-01' })).toEqual([2])
      expect(await numbers({ to: '2025-07-01' })).toEqual([1])
      expect(await numbers({ complete: false })).toEqual([2])
      const found = await store.records.find(2)
      if (found === undefined) throw new Error('Record 2 is gone')
      await store.records.restate(found.id, { ...found, complete: true }, ['Other'])
      expect(await numbers({ product: 'Other', complete: true })).toEqual([2])
      expect((await store.records.listNewest({}, 1)).map(({ number }) => number)).toEqual([2])
    }))
})

eachEngine('drafts in the store', (place) => {
  test('keep every step, end once, and take their reminder with them', () =>
    inStore(place, async ({ db, store, crew }) => {
      const person = await aPerson(store)
      const { id } = await store.drafts.create({ personId: person.id, mixId: null, draft: {} }, NOON_MS)
      const nonce = draftNonce(crew.id, id)
      const remind = () =>
        store.deliveries.plan(
          { personId: person.id, command: 'log', reply: reply('answer', asTyped('x')), nonce, dueAtMs: 0 },
          NOON_MS,
        )
      const reminders = () => db.selectFrom('deliveries').select('id').where('nonce', '=', nonce).execute()
      await remind()
      expect(await reminders()).toHaveLength(1)
      await store.drafts.update(id, { county: 'Demo County' }, NOON_MS + 1)
      expect((await store.drafts.listOpen(person.id, 5)).map(({ draft }) => draft)).toEqual([
        { county: 'Demo County' },
      ])
      expect(await store.drafts.close(id, 'kept', NOON_MS + 2)).toBe(true)
      expect(await reminders()).toEqual([])
      expect(await store.drafts.close(id, 'dropped', NOON_MS + 3)).toBe(false)
      expect(await store.drafts.listOpen(person.id, 5)).toEqual([])
      await store.drafts.update(id, { county: 'changed' }, NOON_MS + 4)
      expect((await store.drafts.get(id))?.draft).toEqual({ county: 'Demo County' })
    }))
})
