import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew, updateCrew } from '#src/store/crews.ts'
import { openDatabase } from '#src/store/open.ts'
import { remembered } from '#src/store/remembered.ts'
import { readOnly, savepoint, write } from '#src/store/transaction.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { aCrew, aCrewStore, anArea, aSite } from '#tests/helpers/rows.ts'

eachEngine('within a transaction', (place) => {
  test('what was read before is read anew once it was changed', async () => {
    const database = await place.open()
    await write(database, async (db) => {
      const { store } = await aCrewStore(db)
      const { id: site } = await aSite(store, { name: 'before' })
      const names = async () => (await store.sites.list()).map(({ name }) => name)
      expect([await names(), await names()]).toEqual([['before'], ['before']])
      await store.sites.update(site, { name: 'after' })
      expect(await names()).toEqual(['after'])
      await aSite(store, { name: 'another' })
      expect(await names()).toEqual(['after', 'another'])
      await store.sites.retire(site, 1)
      expect(await names()).toEqual(['another'])
      expect((await store.sites.get(site))?.name).toBeUndefined()
    })
  })

  test('what a savepoint took back is not remembered', async () => {
    const database = await place.open()
    await write(database, async (db) => {
      const { store } = await aCrewStore(db)
      const { id: site } = await aSite(store)
      const bug = savepoint(db, async () => {
        await anArea(store, site)
        expect(await store.sites.listAreas(site)).toHaveLength(1)
        throw new Error('a bug')
      })
      await expect(bug).rejects.toThrow('a bug')
      expect(await store.sites.listAreas(site)).toEqual([])
    })
  })

  test('the next one asks again', async () => {
    const database = await place.open()
    const { id, key } = await write(database, (db) => aCrew(db))
    const nameNow = () => readOnly(database, async (db) => (await findCrew(db, key))?.name)
    await nameNow()
    await write(database, (db) => updateCrew(db, id, { name: 'Demo Turf' }))
    expect(await nameNow()).toBe('Demo Turf')
  })
})

test('several rooms that ask the same ask the engine once', async () => {
  let statements = 0
  const count = () => {
    statements += 1
    return 0
  }
  const database = await openDatabase({ engine: 'sqlite', path: ':memory:', pauseMs: count }, 'practice')
  const asked = async (work: () => Promise<unknown>) => {
    const before = statements
    await work()
    return statements - before
  }
  const { id } = await write(database, (db) => aCrew(db))
  await write(database, async (db) => {
    const store = crewStore(db, id)
    const { id: site } = await aSite(store)
    expect(await asked(() => store.sites.get(site))).toBe(1)
    expect(await asked(() => store.sites.get(site))).toBe(0)
    expect(await asked(() => store.sites.get(site + 1))).toBe(1)
    await store.sprayers.retire(1, 1)
    expect(await asked(() => store.sites.get(site))).toBe(0)
    // Somebody else may send one meanwhile.
    expect(await asked(() => store.deliveries.list(['x']))).toBe(1)
    expect(await asked(() => store.deliveries.list(['x']))).toBe(1)
  })
  expect(await asked(() => findCrew(database.db, 'none'))).toBe(1)
  expect(await asked(() => findCrew(database.db, 'none'))).toBe(1)
  await database.close()
})

describe('what is read of a text that was kept', () => {
  const read = remembered(z.strictObject({ names: z.array(z.string()).default([]) }))

  test('is read once, and nobody can change it for the others', () => {
    const first = read('{"names":["Demo"]}')
    expect(read('{"names":["Demo"]}')).toBe(first)
    expect(() => first.names.push('Other')).toThrow(TypeError)
    expect(read('{}')).toEqual({ names: [] })
  })

  test('must still be what it should be', () => {
    expect(() => read('{"name":"Demo"}')).toThrow(z.ZodError)
    expect(() => read('{"name":"Demo"}')).toThrow(z.ZodError)
  })
})
