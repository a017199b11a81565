import { expect, test } from 'vitest'
import type { CrewStore } from '#src/store/crew-store.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { aPerson, inStore } from '#tests/helpers/rows.ts'

async function open(store: CrewStore, personId: number, requestId: string) {
  const turn = await store.turns.create({
    requestId,
    personId,
    command: 'emergency',
    asked: {},
    atMs: NOON_MS,
    day: '2026-05-04',
  })
  return store.incidents.open({ personId, turnId: turn?.id ?? 0, words: 'in my eye', createdAtMs: NOON_MS })
}

eachEngine('incidents and refused rates', (place) => {
  test('an incident is open until somebody closes it, and closed once', async () => {
    await inStore(place, async ({ db, store }) => {
      const ada = await aPerson(store)
      const ben = await aPerson(store, { key: 'ben' })
      const id = await open(store, ada.id, 'a')
      await open(store, ben.id, 'b')
      expect(await store.incidents.listOpen(ada.id)).toEqual([
        { id, personId: ada.id, words: 'in my eye', createdAtMs: NOON_MS },
      ])
      expect(await store.incidents.listOpen()).toHaveLength(2)

      await store.incidents.close(id, ben.id, NOON_MS + 1)
      await store.incidents.close(id, ada.id, NOON_MS + 2)
      expect(await store.incidents.listOpen(ada.id)).toEqual([])
      const row = await db.selectFrom('incidents').selectAll().where('id', '=', id).executeTakeFirst()
      expect(row).toMatchObject({ closedBy: ben.id, closedAtMs: NOON_MS + 1 })
    })
  })

  test('a refused rate is found by its text, the latest first', async () => {
    await inStore(place, async ({ store }) => {
      const { id: personId } = await aPerson(store)
      const rate = '9 oz wt/1000 ft2'
      for (const [at, product] of ['Invented A', 'Invented B'].entries())
        await store.refusedRates.add({ personId, product, rate, atMs: NOON_MS + at })
      expect(await store.refusedRates.find(rate)).toEqual({ product: 'Invented B', atMs: NOON_MS + 1 })
      expect(await store.refusedRates.find('1 oz wt/1000 ft2')).toBeUndefined()
    })
  })
})
