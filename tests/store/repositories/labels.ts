import { expect, test } from 'vitest'
import { NOON_MS } from '#tests/helpers/asks.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { aPerson, aProduct, demoEntry, inStore } from '#tests/helpers/rows.ts'

eachEngine('the label book', (place) => {
  test('an entry has nothing in force until a revision is made live', async () => {
    await inStore(place, async ({ store }) => {
      const { id: personId } = await aPerson(store)
      const body = demoEntry()
      const id = await store.labels.createEntry(body.name, NOON_MS)
      const revision = await store.labels.addRevision(id, body, { personId, atMs: NOON_MS })
      expect(await store.labels.get(id)).toMatchObject({ live: null, confirmedOn: null, retired: false })
      expect(revision).toMatchObject({ entryId: id, revision: 1, status: 'waiting', body, confirmedBy: null })

      await store.labels.makeLive(revision, { by: personId, on: '2026-05-04' })
      const live = await store.labels.findByName(body.name)
      expect(live).toMatchObject({ id, confirmedOn: '2026-05-04', live: { revision: 1, status: 'live' } })
    })
  })

  test('the older revision stays in force while a newer one waits, and on file when it is replaced', async () => {
    await inStore(place, async ({ store }) => {
      const { id: personId } = await aPerson(store)
      const { entryId, revisionId, body } = await aProduct(store, personId)
      const newer = { ...body, label: { version: 'B', date: '2026-02-02' } }
      const revision = await store.labels.addRevision(entryId, newer, { personId, atMs: NOON_MS })
      expect((await store.labels.get(entryId))?.live?.id).toBe(revisionId)

      await store.labels.makeLive(revision, { by: null, on: '2026-05-05' })
      expect((await store.labels.get(entryId))?.live).toMatchObject({ id: revision.id, revision: 2 })
      const history = await store.labels.listRevisions(entryId)
      expect(history.map(({ revision: n, status }) => [n, status])).toEqual([
        [2, 'live'],
        [1, 'replaced'],
      ])
      expect((await store.labels.getRevision(revisionId))?.body).toEqual(body)
    })
  })

  test('a revision that is dropped never comes into force', async () => {
    await inStore(place, async ({ store }) => {
      const { id: personId } = await aPerson(store)
      const { entryId, revisionId, body } = await aProduct(store, personId)
      const { id } = await store.labels.addRevision(entryId, body, { personId, atMs: NOON_MS })
      await store.labels.dropRevision(id)
      expect((await store.labels.getRevision(id))?.status).toBe('dropped')
      expect((await store.labels.get(entryId))?.live?.id).toBe(revisionId)
    })
  })

  test('two revisions of one entry never have the same number', async () => {
    const twice = inStore(place, async ({ db, crew, store }) => {
      const { id: personId } = await aPerson(store)
      const { entryId } = await aProduct(store, personId)
      const same = { crewId: crew.id, entryId, revision: 1, body: '{}', status: 'waiting' }
      await db
        .insertInto('labelRevisions')
        .values({ ...same, enteredBy: personId, confirmedBy: null, createdAtMs: NOON_MS })
        .execute()
    })
    await expect(twice).rejects.toThrow(/unique/i)
  })

  test('a retired product is in no list, but its entry can still be read', async () => {
    await inStore(place, async ({ store }) => {
      const { id: personId } = await aPerson(store)
      const { entryId, body } = await aProduct(store, personId)
      await aProduct(store, personId, { name: 'Another invented' })
      await store.labels.retire(entryId, NOON_MS)
      expect(await store.labels.names()).toEqual(['Another invented'])
      expect((await store.labels.list()).map(({ name }) => name)).toEqual(['Another invented'])
      expect(await store.labels.findByName(body.name)).toBeUndefined()
      expect((await store.labels.get(entryId))?.retired).toBe(true)
    })
  })

  test('a confirmation moves the day on which the entry was last held against its label', async () => {
    await inStore(place, async ({ store }) => {
      const { id: personId } = await aPerson(store)
      const { entryId } = await aProduct(store, personId)
      await store.labels.confirm(entryId, '2026-06-01')
      expect((await store.labels.get(entryId))?.confirmedOn).toBe('2026-06-01')
    })
  })
})
