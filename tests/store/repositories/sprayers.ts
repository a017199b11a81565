import { expect, test } from 'vitest'
import type { CrewStore } from '#src/store/crew-store.ts'
import { type Sprayer, setupOf } from '#src/store/sprayers.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { aPerson, aSprayer, inStore } from '#tests/helpers/rows.ts'

const contents = { products: [], volume: null, rate: null, output: null, note: '' }

function measure(store: CrewStore, sprayer: Sprayer, personId: number, value: string) {
  return store.sprayers.keepCalibration(
    {
      sprayerId: sprayer.id,
      personId,
      setup: setupOf(sprayer.details),
      output: { value, unit: 'gal/1000 ft2' },
      measuredOn: '2026-05-04',
    },
    NOON_MS,
  )
}

eachEngine('sprayers', (place) => {
  test('a sprayer comes back as it was given and leaves the list when retired', async () => {
    await inStore(place, async ({ store }) => {
      const sprayer = await aSprayer(store)
      expect(await store.sprayers.get(sprayer.id)).toEqual(sprayer)
      expect(await store.sprayers.list()).toEqual([sprayer])
      await store.sprayers.retire(sprayer.id, NOON_MS)
      expect(await store.sprayers.list()).toEqual([])
    })
  })

  test('the newest calibration of this person holds', async () => {
    await inStore(place, async ({ store }) => {
      const sprayer = await aSprayer(store)
      const ada = await aPerson(store)
      const ben = await aPerson(store, { key: 'ben' })
      await measure(store, sprayer, ada.id, '1')
      await measure(store, sprayer, ada.id, '1.2')
      await measure(store, sprayer, ben.id, '2')
      expect((await store.sprayers.findCalibration(sprayer, ada.id))?.output.value).toBe('1.2')
      expect((await store.sprayers.findCalibration(sprayer, ben.id))?.output.value).toBe('2')
    })
  })

  test('another tip or pressure voids a calibration, the same one again brings it back', async () => {
    await inStore(place, async ({ store }) => {
      const sprayer = await aSprayer(store)
      const { id } = await aPerson(store)
      await measure(store, sprayer, id, '1')
      const blue = { ...sprayer, details: { ...sprayer.details, tip: 'blue' } }
      await store.sprayers.update(sprayer.id, blue.details)
      expect(await store.sprayers.get(sprayer.id)).toEqual(blue)
      expect(await store.sprayers.findCalibration(blue, id)).toBeUndefined()
      expect(await store.sprayers.findCalibration(sprayer, id)).toBeDefined()
    })
  })

  test('calibrations are listed oldest first, of all or of one person', async () => {
    await inStore(place, async ({ store }) => {
      const sprayer = await aSprayer(store)
      const ada = await aPerson(store)
      const ben = await aPerson(store, { key: 'ben' })
      for (const value of ['1', '1.1']) await measure(store, sprayer, ada.id, value)
      await measure(store, sprayer, ben.id, '2')
      const outputs = async (personId?: number) =>
        (await store.sprayers.listCalibrations(sprayer.id, personId)).map(({ output }) => output.value)
      expect(await outputs()).toEqual(['1', '1.1', '2'])
      expect(await outputs(ben.id)).toEqual(['2'])
    })
  })

  test('what happened to the contents is listed newest first, as much as is wanted', async () => {
    await inStore(place, async ({ store }) => {
      const { id: sprayerId } = await aSprayer(store)
      const { id: personId } = await aPerson(store)
      for (const [at, kind] of (['poured', 'emptied', 'cleaned'] as const).entries())
        await store.sprayers.addEvent({
          sprayerId,
          personId,
          turnId: null,
          kind,
          details: contents,
          atMs: NOON_MS + at,
        })
      const events = await store.sprayers.listEvents(sprayerId, 2)
      expect(events.map(({ kind, atMs }) => [kind, atMs - NOON_MS])).toEqual([
        ['cleaned', 2],
        ['emptied', 1],
      ])
      expect(events[0]).toMatchObject({ sprayerId, personId, details: contents })
    })
  })
})
