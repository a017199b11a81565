import { expect, test } from 'vitest'
import { say } from '#src/conversation/text.ts'
import { floodGate } from '#src/desk/flood.ts'
import { ben, NOON_MS, run } from '#tests/helpers/asks.ts'
import { sqlitePlace } from '#tests/helpers/engines.ts'
import { openTestDesk } from '#tests/helpers/test-desk.ts'

const place = sqlitePlace()

/** How many of a row of requests at one moment are let through. */
const through = (gate: ReturnType<typeof floodGate>, person: string, count: number, nowMs = NOON_MS) =>
  Array.from({ length: count }, () => gate(person, nowMs)).filter((allowed) => allowed).length

test('thirty questions at once are nobody’s flood; more are', () => {
  expect(through(floodGate(), 'ada', 30)).toBe(30)
  expect(through(floodGate(), 'ada', 100)).toBe(30)
})

test('the allowance comes back with time, two a second, and never grows past thirty', () => {
  const gate = floodGate()
  through(gate, 'ada', 100)
  expect(through(gate, 'ada', 100, NOON_MS + 5_000)).toBe(10)
  expect(through(gate, 'ada', 100, NOON_MS + 3_600_000)).toBe(30)
})

test('one person’s flood slows nobody else', () => {
  const gate = floodGate()
  through(gate, 'ada', 1000)
  expect(through(gate, 'ben', 30)).toBe(30)
})

test('a clock that goes backward takes nothing away', () => {
  const gate = floodGate()
  through(gate, 'ada', 20)
  expect(through(gate, 'ada', 20, NOON_MS - 60_000)).toBe(10)
})

test('the desk tells whoever floods to wait; what they ask is kept, others are answered', async () => {
  const database = await place.open({ engine: 'sqlite', path: ':memory:' })
  const desk = openTestDesk(database, { flood: floodGate() })
  const asks = Array.from({ length: 40 }, (_, n) => run('note', { text: `note ${n}` }))
  const answers = await Promise.all(asks.map((ask) => desk.answer(ask)))
  const slowed = answers.filter(({ reply }) => reply.title.say === 'desk.flood')
  expect(slowed).toHaveLength(10)
  expect(slowed[0]?.reply).toMatchObject({ outcome: 'refusal', title: say('desk.flood') })
  expect(await desk.written()).toHaveLength(30)
  expect((await desk.answer(run('note', { text: 'mine' }, { by: ben }))).reply.outcome).toBe('answer')
  expect((await desk.answer(run('note', { text: 'later' }, { atMs: NOON_MS + 1000 }))).reply.outcome).toBe(
    'answer',
  )
})
