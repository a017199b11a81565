import { describe, expect, test } from 'vitest'
import { say } from '#src/conversation/text.ts'
import type { Answered } from '#src/desk/desk.ts'
import { ada, ben, lead, NOON_MS, press, run, speaker, stranger, submit } from '#tests/helpers/asks.ts'
import { sqlitePlace } from '#tests/helpers/engines.ts'
import { openTestDesk } from '#tests/helpers/test-desk.ts'

const place = sqlitePlace()
const open = async () => openTestDesk(await place.open({ engine: 'sqlite', path: ':memory:' }))

const refusal = (title: string) => ({ reply: { outcome: 'refusal', title: { say: title } } })

describe('who may', () => {
  test.each([
    ['somebody of the crew', ada, 'refusal'],
    ['whoever runs the server', lead, 'answer'],
    ['a person with the role that leads have', speaker({ roles: ['role:7'] }), 'answer'],
    ['a person with another role', speaker({ roles: ['role:8'] }), 'refusal'],
  ])('%s asks for a command of leads: %#', async (_who, by, outcome) => {
    const desk = await open()
    await desk.answer(run('sum', { a: 1, b: 1 }, { by }))
    const settings = { leadRole: 'role:7' }
    await desk.database.db
      .updateTable('crews')
      .set({ settings: JSON.stringify(settings) })
      .execute()
    expect((await desk.answer(run('leads', {}, { by }))).reply.outcome).toBe(outcome)
  })

  test('a person whom the crew has made a lead', async () => {
    const desk = await open()
    expect(await desk.answer(run('leads'))).toMatchObject(refusal('desk.lead-only'))
    await desk.database.db.updateTable('people').set({ role: 'lead' }).execute()
    expect((await desk.answer(run('leads'))).reply.outcome).toBe('answer')
  })

  test('a choice is for whom it answers, unless it says otherwise', async () => {
    const desk = await open()
    const question = await desk.answer(run('pick'))
    expect(await desk.answer(press(question, 1, { by: ben }))).toMatchObject({
      reply: { outcome: 'refusal', title: say('desk.not-yours', { name: 'Ada Test' }) },
    })
    expect(await desk.answer(press(question, 3))).toMatchObject(refusal('desk.lead-only'))
    expect(await desk.written()).toEqual([])
    expect((await desk.answer(press(question, 3, { by: lead }))).reply.outcome).toBe('answer')
  })

  test('a choice that starts another command does so as if it had been typed, and closes its question', async () => {
    const desk = await open()
    const question = await desk.answer(run('pick'))
    expect(await desk.answer(press(question, 6, { by: ben }))).toMatchObject(refusal('desk.not-yours'))
    expect(await desk.answer(press(question, 6))).toMatchObject({
      closed: true,
      reply: { outcome: 'answer' },
    })
    await desk.answer(press(question, 6))
    expect(await desk.written()).toEqual(['started'])
  })

  test('a choice that starts a command of leads is refused to others', async () => {
    const desk = await open()
    const question = await desk.answer(run('pick'))
    expect(await desk.answer(press(question, 7))).toMatchObject(refusal('desk.lead-only'))
  })

  test('a refused press leaves the choice to whom it belongs', async () => {
    const desk = await open()
    const question = await desk.answer(run('pick'))
    await desk.answer(press(question, 1, { by: ben }))
    expect((await desk.answer(press(question, 1))).reply.outcome).toBe('answer')
  })

  test('a form is opened again and sent by its owner only', async () => {
    const desk = await open()
    const question = await desk.answer(run('fill'))
    expect(await desk.answer(press(question, 'form'))).toMatchObject({ turnId: question.turnId })
    expect(await desk.answer(press(question, 'form', { by: ben }))).toMatchObject(refusal('desk.not-yours'))
    const sent = submit(question, { name: 'theirs', size: '1' }, { by: ben })
    expect(await desk.answer(sent)).toMatchObject(refusal('desk.not-yours'))
    expect(await desk.written()).toEqual([])
  })
})

describe('a token that was not given out', () => {
  const gone = (answered: Answered) =>
    expect(answered).toMatchObject({
      reply: { outcome: 'refusal', title: say('desk.cannot'), lines: [say('desk.unknown-choice')] },
    })

  test.each([
    '',
    's1',
    's1.1',
    's1.1.0',
    's1.1.8',
    's1.1.99',
    's2.1.1',
    's1.zzzzzz.1',
    "s1.1.1'; --",
    's1.1.f',
  ])('%j leads nowhere', async (token) => {
    const desk = await open()
    await desk.answer(run('pick'))
    const by = { id: 'x', by: ada, atMs: 0 }
    gone(await desk.answer({ kind: 'press', ...by, token }))
    gone(await desk.answer({ kind: 'submit', ...by, id: 'y', token, fields: {} }))
    expect(await desk.written()).toEqual([])
  })

  test('one of another crew leads nowhere, whoever presses it', async () => {
    const desk = await open()
    const question = await desk.answer(run('pick'))
    const runsServer = { ...stranger, runsServer: true }
    for (const choice of [1, 2, 3, 4, 'form'] as const)
      gone(await desk.answer(press(question, choice, { by: runsServer })))
    expect([...(await desk.written()), ...(await desk.written(stranger))]).toEqual([])
  })

  test('a choice is not a form, nor a form a choice', async () => {
    const desk = await open()
    const question = await desk.answer(run('pick'))
    const form = await desk.answer(run('fill'))
    gone(await desk.answer(submit(question, {})))
    gone(await desk.answer(press(form, 1)))
  })
})

describe('a direct message, which tells no roles', () => {
  const direct = (by = lead, atMs = NOON_MS) => ({
    by: { ...by, runsServer: false, roles: [], channelKey: null },
    atMs,
  })
  const HOUR_MS = 3_600_000

  test('whom the messenger called a lead in the crew within a day still leads', async () => {
    const desk = await open()
    await desk.answer(run('sum', { a: 1, b: 1 }, { by: lead }))
    expect((await desk.answer(run('leads', {}, direct(lead, NOON_MS + 23 * HOUR_MS)))).reply.outcome).toBe(
      'answer',
    )
    expect(await desk.answer(run('leads', {}, direct(lead, NOON_MS + 25 * HOUR_MS)))).toMatchObject(
      refusal('desk.lead-only'),
    )
  })

  test('who was never called a lead is none, and who is no lead any more stops at once', async () => {
    const desk = await open()
    await desk.answer(run('sum', { a: 1, b: 1 }))
    expect(await desk.answer(run('leads', {}, direct(ada)))).toMatchObject(refusal('desk.lead-only'))
    await desk.answer(run('sum', { a: 1, b: 1 }, { by: lead }))
    await desk.answer(run('sum', { a: 1, b: 1 }, { by: { ...lead, runsServer: false } }))
    expect(await desk.answer(run('leads', {}, direct(lead)))).toMatchObject(refusal('desk.lead-only'))
  })
})
