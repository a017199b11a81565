import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import type { Suggest } from '#src/conversation/ask.ts'
import { reply } from '#src/conversation/reply.ts'
import { asTyped } from '#src/conversation/text.ts'
import { defineCommand } from '#src/desk/command.ts'
import { nameSources } from '#src/desk/name-sources.ts'
import { registryOf } from '#src/desk/registry.ts'
import { indexOf, openSuggestions, rank } from '#src/desk/suggest.ts'
import { raiseBookRevision } from '#src/store/crews.ts'
import { openDatabase } from '#src/store/open.ts'
import { write } from '#src/store/transaction.ts'
import { ada, NOON_MS, stranger } from '#tests/helpers/asks.ts'
import { eachEngine, type Place } from '#tests/helpers/engines.ts'
import { inventNames, misspell, seeded } from '#tests/helpers/names.ts'
import { aCrewStore, anArea, aPerson, aProduct, aSite, aSprayer } from '#tests/helpers/rows.ts'

const text = (suggest: string) => z.string().optional().meta({ suggest })
const command = defineCommand({
  name: 'toy',
  may: 'crew',
  options: z.strictObject({
    site: text('sites'),
    area: text('areas'),
    sprayer: text('sprayers'),
    product: text('products'),
    person: text('people'),
    plain: z.string().optional(),
  }),
  start: async () => ({ reply: reply('answer', asTyped('')) }),
})

const SHOWN_AT_ONCE = 8

describe('among 5,000 names', () => {
  const random = seeded(20_260_504)
  const names = inventNames(5000, random)
  const index = indexOf(names.map((name) => ({ name })))

  test('the right one stands in the first eight for 99 of 100 slips, half of them unfinished', () => {
    const slips = Array.from({ length: 1000 }, (_, n) => {
      const name = names[Math.floor(random() * names.length)] ?? ''
      return { name, typed: misspell(n % 2 === 0 ? name : name.slice(0, -3), random) }
    })
    const found = slips.filter(({ name, typed }) =>
      rank(index, typed)
        .slice(0, SHOWN_AT_ONCE)
        .some((one) => one.name === name),
    )
    expect(found.length / slips.length).toBeGreaterThanOrEqual(0.99)
  })

  test('a name that is typed right stands first', () => {
    for (const name of names.slice(0, 200)) expect(rank(index, name)[0]?.name).toBe(name)
  })
})

eachEngine('names while typing', (place) => {
  test('come from the crew’s own lists, by what the option is', async () => {
    const { suggest } = await open(place)
    const offered = async (option: string) => (await suggest(ask(option, ''))).map(({ value }) => value)
    expect(await offered('site')).toEqual(['Alder Court', 'Birch Field'])
    expect(await offered('sprayer')).toEqual(['Hand can 1'])
    expect(await offered('product')).toEqual(['Invented 75'])
    expect(await offered('person')).toEqual(['Ada Test'])
    expect(await offered('area')).toEqual(['front', 'goal mouth'])
    expect(await offered('plain')).toEqual([])
    expect(await offered('nothing')).toEqual([])
  })

  test('areas are those of the site that was chosen', async () => {
    const { suggest } = await open(place)
    const offered = async (site: string) =>
      (await suggest({ ...ask('area', ''), options: { site } })).map(({ value }) => value)
    expect(await offered('Alder Court')).toEqual(['front'])
    expect(await offered('Birch Field')).toEqual(['goal mouth'])
    expect(await offered('not a site')).toEqual(['front', 'goal mouth'])
  })

  test('another crew is offered none of them', async () => {
    const { suggest } = await open(place)
    expect(await suggest({ ...ask('site', ''), by: stranger })).toEqual([])
  })

  test('are kept until the book changes: then the retired are gone and the new are there', async () => {
    const { database, suggest } = await open(place)
    const offered = async () => (await suggest(ask('site', ''))).map(({ value }) => value)
    await offered()
    const crew = await write(database, async (db) => {
      const { crew, store } = await aCrewStore(db)
      const [alder] = await store.sites.list()
      await store.sites.retire(alder?.id ?? 0, NOON_MS)
      await aSite(store, { name: 'Cedar Row' })
      return crew
    })
    expect(await offered()).toEqual(['Alder Court', 'Birch Field'])
    await write(database, (db) => raiseBookRevision(db, crew.id))
    expect(await offered()).toEqual(['Birch Field', 'Cedar Row'])
  })

  test('a slip is forgiven', async () => {
    const { suggest } = await open(place)
    for (const typed of ['alder', 'ALDER C', 'adler court', 'Aldr', 'alder  court '])
      expect((await suggest(ask('site', typed)))[0]?.value, typed).toBe('Alder Court')
  })

  test('no more than a messenger can show are offered', async () => {
    const { database, suggest } = await open(place)
    await write(database, async (db) => {
      const { crew, store } = await aCrewStore(db)
      for (let n = 0; n < 60; n++) await aSite(store, { name: `Field ${n}` })
      await raiseBookRevision(db, crew.id)
    })
    expect(await suggest(ask('site', ''))).toHaveLength(25)
    expect(await suggest(ask('site', 'field'))).toHaveLength(25)
  })
})

test('areas of 5,000 sites are still offered while a person types', async () => {
  const names = inventNames(5000, seeded(7)).map((within) => ({ name: 'front lawn', within }))
  const last = names.at(-1)
  const suggest = openSuggestions({
    database: await inMemory(),
    registry: registryOf([command]),
    sources: { areas: { list: async () => names } },
  })
  const asked = { ...ask('area', 'frnt'), options: { site: last?.within ?? '' } }
  await suggest(asked)
  const began = performance.now()
  expect(await suggest(asked)).toEqual([{ name: 'front lawn', value: 'front lawn' }])
  // Far below the three seconds that a messenger waits, on a machine that is busy with other things.
  expect(performance.now() - began).toBeLessThan(500)
})

const ask = (option: string, typed: string): Suggest => ({
  by: ada,
  command: 'toy',
  option,
  typed,
  options: {},
})

async function open(place: Place) {
  const database = await place.open()
  await write(database, async (db) => {
    const { store } = await aCrewStore(db)
    const alder = await aSite(store, { name: 'Alder Court' })
    const birch = await aSite(store, { name: 'Birch Field' })
    await anArea(store, alder.id, { name: 'front' })
    await anArea(store, birch.id, { name: 'goal mouth' })
    await aSprayer(store)
    const { id } = await aPerson(store)
    await aProduct(store, id, { name: 'Invented 75' })
  })
  return {
    database,
    suggest: openSuggestions({ database, registry: registryOf([command]), sources: nameSources }),
  }
}

async function inMemory() {
  const database = await openDatabase({ engine: 'sqlite', path: ':memory:' }, 'practice')
  await write(database, (db) => aCrewStore(db))
  return database
}
