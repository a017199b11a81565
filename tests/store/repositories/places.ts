import { expect, test } from 'vitest'
import { AreaDetails, SiteDetails } from '#src/store/sites.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { anArea, aPerson, aProduct, aSite, inStore } from '#tests/helpers/rows.ts'

eachEngine('sites, areas, files and treatments', (place) => {
  test('a site comes back as it was given, changes by parts, and leaves the lists when retired', async () => {
    await inStore(place, async ({ store }) => {
      const site = await aSite(store, { details: SiteDetails.parse({ pets: 'one dog', water: 'pond' }) })
      expect(await store.sites.get(site.id)).toEqual(site)
      await store.sites.update(site.id, { name: 'Renamed' })
      const details = { ...site.details, earlier: [site.name] }
      expect(await store.sites.list()).toEqual([{ ...site, name: 'Renamed', details }])
      await store.sites.retire(site.id, NOON_MS)
      expect(await store.sites.list()).toEqual([])
      expect(await store.sites.get(site.id)).toBeUndefined()
    })
  })

  test('sites are listed by name', async () => {
    await inStore(place, async ({ store }) => {
      for (const name of ['beta', 'alpha', 'gamma']) await aSite(store, { name })
      expect((await store.sites.list()).map(({ name }) => name)).toEqual(['alpha', 'beta', 'gamma'])
    })
  })

  test('areas keep their decimals and stand in the order in which they were made', async () => {
    await inStore(place, async ({ store }) => {
      const [one, other] = [await aSite(store), await aSite(store, { name: 'second' })]
      const first = await anArea(store, one.id, { squareFeet: '6000.125' })
      const second = await anArea(store, one.id, { name: 'back' })
      const third = await anArea(store, other.id)
      expect(await store.sites.listAreas(one.id)).toEqual([first, second])
      expect(await store.sites.allAreas()).toEqual([first, second, third])
      const details = AreaDetails.parse({ turfs: ['bermudagrass'], dormant: true })
      await store.sites.updateArea(first.id, { details })
      expect(await store.sites.getArea(first.id)).toEqual({ ...first, details })
    })
  })

  test('an area needs a site that exists', async () => {
    await expect(inStore(place, async ({ store }) => anArea(store, 4711))).rejects.toThrow(/foreign key/i)
  })

  test('files are listed by what they belong to', async () => {
    await inStore(place, async ({ store }) => {
      const photo = { blob: 'f'.repeat(64), name: 'gate.jpg', type: 'image/jpeg', bytes: 123_456 }
      await store.files.attach(photo, 'site', 1, NOON_MS)
      await store.files.attach({ ...photo, name: 'other' }, 'turn', 1, NOON_MS)
      expect(await store.files.list('site', 1)).toEqual([photo])
      expect(await store.files.list('site', 2)).toEqual([])
    })
  })

  test('treatments of an area come oldest first, from a day on', async () => {
    await inStore(place, async ({ store }) => {
      const { id: personId } = await aPerson(store)
      const area = await anArea(store, (await aSite(store)).id)
      const { entryId, revisionId, body } = await aProduct(store, personId)
      const details = {
        product: body.name,
        rate: '0.5 oz wt/1000 ft2',
        lineId: null,
        treatedFt2: '6000',
        amount: { value: '3', unit: 'oz wt' },
        note: '',
      }
      for (const treatedOn of ['2026-04-01', '2026-03-01', '2025-04-01'])
        await store.treatments.add(
          { areaId: area.id, entryId, revisionId, personId, details, treatedOn },
          NOON_MS,
        )
      const listed = await store.treatments.list(area.id, '2026-01-01')
      expect(listed.map(({ treatedOn }) => treatedOn)).toEqual(['2026-03-01', '2026-04-01'])
      expect(listed[0]).toMatchObject({ areaId: area.id, entryId, revisionId, personId, details })
    })
  })

  test('a treatment names a revision of its own entry', async () => {
    const mixed = inStore(place, async ({ store }) => {
      const { id: personId } = await aPerson(store)
      const area = await anArea(store, (await aSite(store)).id)
      const one = await aProduct(store, personId)
      const other = await aProduct(store, personId, { name: 'Invented Other' })
      const details = { product: '', rate: '', lineId: null, treatedFt2: '1', amount: null, note: '' }
      return store.treatments.add(
        {
          areaId: area.id,
          entryId: one.entryId,
          revisionId: other.revisionId,
          personId,
          details,
          treatedOn: '2026-05-04',
        },
        NOON_MS,
      )
    })
    await expect(mixed).rejects.toThrow(/foreign key/i)
  })
})
