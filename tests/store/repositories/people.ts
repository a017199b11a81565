import { expect, test } from 'vitest'
import { crewStore } from '#src/store/crew-store.ts'
import { CrewSettings, findCrew, getCrew, raiseBookRevision, updateCrew } from '#src/store/crews.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { aCrew, aPerson, inStore } from '#tests/helpers/rows.ts'

eachEngine('crews and people', (place) => {
  test('a crew is made at its first word and found ever after', async () => {
    await inStore(place, async ({ db, crew }) => {
      expect(await aCrew(db, { key: crew.key, name: 'said otherwise later' })).toEqual(crew)
      expect(await findCrew(db, crew.key)).toEqual(crew)
      expect(await getCrew(db, crew.id)).toEqual(crew)
      expect(crew).toMatchObject({ zone: 'America/Chicago', state: null, bookRevision: 0, demo: false })
    })
  })

  test('a crew that nobody has heard of is not there', async () => {
    await inStore(place, async ({ db }) => {
      expect(await findCrew(db, 'nobody')).toBeUndefined()
      expect(await getCrew(db, 4711)).toBeUndefined()
    })
  })

  test('what is changed of a crew is changed, and nothing else', async () => {
    await inStore(place, async ({ db, crew }) => {
      const settings = CrewSettings.parse({ units: 'metric', leadRole: 'role:7' })
      await updateCrew(db, crew.id, { zone: 'America/Denver', settings })
      expect(await getCrew(db, crew.id)).toEqual({ ...crew, zone: 'America/Denver', settings })
    })
  })

  test('every change of names raises the revision of the book by one', async () => {
    await inStore(place, async ({ db, crew }) => {
      await raiseBookRevision(db, crew.id)
      await raiseBookRevision(db, crew.id)
      expect((await getCrew(db, crew.id))?.bookRevision).toBe(2)
    })
  })

  test('a person is made at their first word and called as they call themselves today', async () => {
    await inStore(place, async ({ store }) => {
      const first = await aPerson(store, { name: 'Ada' })
      const renamed = await aPerson(store, { name: 'Ada T.' })
      const settings = { ...first.settings, earlierNames: ['Ada'] }
      expect(renamed).toEqual({ ...first, name: 'Ada T.', settings })
      expect(await store.people.get(first.id)).toEqual(renamed)
      expect(await store.people.find('ada')).toEqual(renamed)
      expect(await store.people.list()).toEqual([renamed])
    })
  })

  test('those who lead are found without reading everybody else', async () => {
    await inStore(place, async ({ store }) => {
      const kept = await aPerson(store, { key: 'kept', name: 'Kept', role: 'lead' })
      await aPerson(store, { key: 'crew', name: 'Crew' })
      const called = await aPerson(store, { key: 'called', name: 'Called', leadsByMessenger: true })
      expect(await store.people.leads()).toEqual([kept, called])
      await store.people.update(kept.id, { role: 'crew' })
      expect(await store.people.leads()).toEqual([called])
    })
  })

  test('role, language and license of a person are kept', async () => {
    await inStore(place, async ({ store }) => {
      const { id, settings } = await aPerson(store)
      const license = { number: 'TEST-1', expiresOn: '2027-01-01' }
      await store.people.update(id, { role: 'lead', language: 'es', settings: { ...settings, license } })
      expect(await store.people.get(id)).toMatchObject({
        role: 'lead',
        language: 'es',
        settings: { license },
      })
    })
  })

  test('the same person in two crews is two people', async () => {
    await inStore(place, async ({ db, store }) => {
      const other = crewStore(db, (await aCrew(db, { key: 'test:2' })).id)
      expect((await aPerson(store)).id).not.toBe((await aPerson(other)).id)
    })
  })
})
