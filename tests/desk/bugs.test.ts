import { describe, expect, test } from 'vitest'
import { say } from '#src/conversation/text.ts'
import type { Command } from '#src/desk/command.ts'
import { press, run } from '#tests/helpers/asks.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { openTestDesk } from '#tests/helpers/test-desk.ts'
import { toyCommands } from '#tests/helpers/toy-commands.ts'

const changed = (name: string, change: Partial<Command>): readonly Command[] =>
  toyCommands.map((command) => (command.name === name ? { ...command, ...change } : command))

eachEngine('a command that breaks', (place) => {
  test.each([
    ['throws', 'a bug'],
    ['database', /foreign key/i],
    ['swallows', /a bug|aborted/],
    ['unreadable', /expected/i],
  ])('%s: nothing of its work stays, the question does, with an apology and its number', async (how, why) => {
    const desk = openTestDesk(await place.open())
    const answered = await desk.answer(run('broken', { how }))
    expect(answered).toMatchObject({
      number: 1,
      reply: { outcome: 'refusal', title: say('desk.error', { number: '1' }) },
    })
    expect(answered.reply.safety.chosen?.length).toBeGreaterThan(0)
    expect(await desk.written()).toEqual([])
    expect(desk.errors).toMatchObject([{ about: { command: 'broken', number: 1 } }])
    expect(String(desk.errors[0]?.error)).toMatch(why)
    const [kept] = await desk.look((store) => store.turns.list({ limit: 1 }))
    expect(kept).toMatchObject({ number: 1, command: 'broken', outcome: 'refusal' })
  })

  test('the next question is answered as if nothing had been', async () => {
    const desk = openTestDesk(await place.open())
    await desk.answer(run('broken', { how: 'database' }))
    expect(await desk.answer(run('note', { text: 'gate' }))).toMatchObject({ number: 2 })
    expect(await desk.written()).toEqual(['gate'])
  })

  test('delivered again, the apology comes again: a bug is not tried twice', async () => {
    const desk = openTestDesk(await place.open())
    const ask = run('broken', { how: 'throws' })
    const [first, second] = [await desk.answer(ask), await desk.answer(ask)]
    expect(second.reply).toEqual(first.reply)
    expect(desk.errors).toHaveLength(1)
  })

  test('in a later step, the same', async () => {
    const desk = openTestDesk(await place.open())
    const question = await desk.answer(run('pick'))
    expect(await desk.answer(press(question, 5))).toMatchObject({
      number: 2,
      reply: { title: say('desk.error', { number: '2' }) },
    })
    expect(await desk.written()).toEqual([])
  })

  describe('a question from before a change of the program', () => {
    test.each([
      ['its state has an older version', changed('pick', { stateVersion: 2 })],
      ['the command is there but its state reads otherwise', toyCommands],
    ])('%s: start here', async (_what, commands) => {
      const database = await place.open()
      const question = await openTestDesk(database).answer(run('pick'))
      if (commands === toyCommands)
        await database.db
          .updateTable('turns')
          .set({ state: '{"version":1,"data":{"was":"other"}}' })
          .execute()
      const desk = openTestDesk(database, { commands })
      expect(await desk.answer(press(question, 1))).toMatchObject({
        reply: { outcome: 'refusal', title: say('desk.changed', { command: { literal: '/pick' } }) },
      })
      expect(desk.errors).toEqual([])
      expect(await desk.written()).toEqual([])
    })

    test('the command is gone: so is the choice', async () => {
      const database = await place.open()
      const question = await openTestDesk(database).answer(run('pick'))
      const desk = openTestDesk(database, { commands: changed('pick', { name: 'other' }) })
      expect((await desk.answer(press(question, 1))).reply.lines).toEqual([say('desk.unknown-choice')])
    })
  })
})
