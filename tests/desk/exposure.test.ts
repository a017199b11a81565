import { describe, expect, test } from 'vitest'
import { say } from '#src/conversation/text.ts'
import type { Answered } from '#src/desk/desk.ts'
import { ada, ben, press, run, speaker, stranger, submit } from '#tests/helpers/asks.ts'
import { sqlitePlace } from '#tests/helpers/engines.ts'
import { openTestDesk, type TestDesk } from '#tests/helpers/test-desk.ts'

const place = sqlitePlace()
const open = async () => openTestDesk(await place.open({ engine: 'sqlite', path: ':memory:' }))

const WORDS = 'I got it in my eye'
const isCard = (answered: Answered) =>
  expect(answered).toMatchObject({ reply: { outcome: 'hold', title: say('emergency.title') } })
const openIncidents = (desk: TestDesk) => desk.look((store) => store.incidents.listOpen())

describe('words of exposure', () => {
  test.each([
    ['in an option', () => run('note', { text: WORDS })],
    ['beside a wrong option', () => run('sum', { a: 'x', note: WORDS })],
    ['in a command for leads', () => run('leads', { text: WORDS })],
    ['in a command that does not exist', () => run(WORDS)],
    ['in Spanish, with a slip', () => run('mixing', { note: 'me callo en el ojo' })],
  ])('%s bring the card before anything else, and are kept as an incident', async (_where, ask) => {
    const desk = await open()
    isCard(await desk.answer(ask()))
    expect(await openIncidents(desk)).toHaveLength(1)
    expect(await desk.written()).toEqual([])
  })

  test('in a field of a form, too', async () => {
    const desk = await open()
    const question = await desk.answer(run('fill'))
    isCard(await desk.answer(submit(question, { name: WORDS, size: 'wrong' })))
    expect(await openIncidents(desk)).toHaveLength(1)
    // The form was not used up by it.
    const later = await desk.answer(submit(question, { name: 'gate', size: '1' }))
    expect(later.reply.outcome).toBe('answer')
  })

  test('every line for emergencies stands under the card', async () => {
    const desk = await open()
    const { reply } = await desk.answer(run('note', { text: WORDS }))
    expect(reply.safety.chosen?.length).toBeGreaterThan(1)
  })

  test.each(['the grass looks sick', 'leaf burn on the bermuda', 'zacate quemado'])(
    '%j is no alarm',
    async (text) => {
      const desk = await open()
      await desk.answer(run('note', { text }))
      expect(await openIncidents(desk)).toEqual([])
      expect(await desk.written()).toEqual([text])
    },
  )

  test('delivered twice, they are one incident', async () => {
    const desk = await open()
    const ask = run('note', { text: WORDS })
    await desk.answer(ask)
    isCard(await desk.answer(ask))
    expect(await openIncidents(desk)).toHaveLength(1)
  })
})

describe('until it is dealt with', () => {
  test('this person mixes nothing; others, and other questions, go on', async () => {
    const desk = await open()
    await desk.answer(run('note', { text: WORDS }))
    expect((await desk.answer(run('mixing'))).reply).toMatchObject({
      outcome: 'refusal',
      title: say('desk.exposure-open'),
    })
    expect((await desk.answer(run('sum', { a: 1, b: 1 }))).reply.outcome).toBe('answer')
    expect((await desk.answer(run('mixing', {}, { by: ben }))).reply.outcome).toBe('answer')
    expect((await desk.answer(run('mixing', {}, { by: stranger }))).reply.outcome).toBe('answer')
  })

  test.each([
    ['the person', ada],
    ['somebody else of the crew', ben],
  ])('%s says so with the one choice of the card, and mixing goes on', async (_who, by) => {
    const desk = await open()
    const card = await desk.answer(run('note', { text: WORDS }))
    expect(card.reply.choices.map(({ label }) => label)).toEqual([say('emergency.dealt-with')])
    expect((await desk.answer(press(card, 1, { by }))).reply.outcome).toBe('answer')
    expect(await openIncidents(desk)).toEqual([])
    expect((await desk.answer(run('mixing'))).reply.outcome).toBe('answer')
  })

  test('a person of another crew cannot', async () => {
    const desk = await open()
    const card = await desk.answer(run('note', { text: WORDS }))
    await desk.answer(press(card, 1, { by: { ...stranger, runsServer: true } }))
    expect(await openIncidents(desk)).toHaveLength(1)
  })

  test('/emergency always goes through, while the person floods as well', async () => {
    const desk = openTestDesk(await place.open({ engine: 'sqlite', path: ':memory:' }), {
      flood: () => false,
    })
    isCard(await desk.answer(run('note', { text: WORDS })))
    const card = await desk.answer(run('emergency', {}, { by: speaker() }))
    expect(card.reply.title).toEqual(say('emergency.title'))
  })
})
