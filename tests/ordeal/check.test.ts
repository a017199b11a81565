import { expect, test } from 'vitest'
import { crewStore } from '#src/store/crew-store.ts'
import { write } from '#src/store/transaction.ts'
import { NOON_MS, run, speaker } from '#tests/helpers/asks.ts'
import { sqlitePlace } from '#tests/helpers/engines.ts'
import { aCrew, aPerson, aSprayer } from '#tests/helpers/rows.ts'
import { openTestDesk } from '#tests/helpers/test-desk.ts'
import { type Copies, check } from './check.ts'
import type { Deed } from './people.ts'
import { fired } from './told.ts'

const place = sqlitePlace()

/** A store with two answers, one of which poured, and one reminder on its way. */
async function stage(deeds: readonly Deed[], reminders: ReadonlyMap<string, Copies> = new Map()) {
  const address = await place.address()
  if (address.engine !== 'sqlite') throw new TypeError('this is about files')
  const database = await place.open(address, 'live')
  const desk = openTestDesk(database)
  for (const id of ['one', 'two']) await desk.answer(run('sum', { a: 1, b: 1 }, { id, by: speaker() }))
  await write(database, async (db) => {
    const store = crewStore(db, (await aCrew(db)).id)
    const person = await aPerson(store)
    const sprayer = await aSprayer(store)
    const turn = await store.turns.findByRequest('two')
    const details = { products: [], volume: null, rate: null, output: null, note: '' }
    await store.sprayers.addEvent({
      sprayerId: sprayer.id,
      personId: person.id,
      turnId: turn?.id ?? 0,
      kind: 'poured',
      details,
      atMs: NOON_MS,
    })
  })
  return check({ deeds, reminders, database: address, crewKey: 'test:1' })
}

test('what people were told and what is kept agree', async () => {
  const found = await stage([
    { kind: 'mix', fired: fired('one', 'Answer no. 1') },
    { kind: 'pour', fired: fired('two', 'Noted. Answer no. 2'), mix: 'm' },
    { kind: 'rate', fired: fired('never', null) },
  ])
  expect(found).toMatchObject({ lost: [], doubled: [], wrong: [], answers: 2 })
})

test('an answer that nobody can find is lost', async () => {
  const { lost } = await stage([{ kind: 'mix', fired: fired('three', 'Answer no. 3') }])
  expect(lost).toEqual(['answer 3 to mix'])
})

test('a pouring that was noted and left nothing is lost', async () => {
  const { lost } = await stage([{ kind: 'pour', fired: fired('one', 'Noted. Respuesta n.º 1'), mix: 'm' }])
  expect(lost).toEqual(['what answer 1 says was pour'])
})

test('an answer told under another number is wrong', async () => {
  const { wrong } = await stage([{ kind: 'mix', fired: fired('one', 'Answer no. 2') }])
  expect(wrong).toEqual(['mix was told answer 2 and is kept as 1'])
})

test('a reminder that did not come is lost, one that came twice is doubled, and a copy that says so is none', async () => {
  const { lost, doubled, repeats } = await stage(
    [],
    new Map([
      ['a', { messages: 0, marked: 0 }],
      ['b', { messages: 2, marked: 0 }],
      ['c', { messages: 2, marked: 1 }],
    ]),
  )
  // None of them stands in this store.
  expect(lost).toEqual(['reminder a', 'reminder b', 'reminder c'])
  expect(doubled).toEqual(['reminder b'])
  expect(repeats).toBe(1)
})
