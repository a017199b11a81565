import fc from 'fast-check'
import { expect, test } from 'vitest'
import { z } from 'zod'
import { Outcome, type Reply, reply } from '#src/conversation/reply.ts'
import { asTyped } from '#src/conversation/text.ts'
import { defineCommand } from '#src/desk/command.ts'
import { loadSafetyLines } from '#src/words/load.ts'
import { Topic } from '#src/words/safety.ts'
import { run } from '#tests/helpers/asks.ts'
import { sqlitePlace } from '#tests/helpers/engines.ts'
import { openTestDesk } from '#tests/helpers/test-desk.ts'

const place = sqlitePlace()
const ids = loadSafetyLines().map(({ id }) => id)

/** A desk with one command that answers whatever it is told to. */
async function open() {
  let next: Reply = reply('answer', asTyped(''))
  const say = defineCommand({
    name: 'say',
    may: 'crew',
    options: z.strictObject({}),
    start: async () => ({ reply: next }),
  })
  const database = await place.open({ engine: 'sqlite', path: ':memory:' })
  const desk = openTestDesk(database, { commands: [say] })
  const answer = (told: Reply) => {
    next = told
    return desk.answer(run('say'))
  }
  return { desk, answer }
}

const toyReply = fc
  .record({
    outcome: fc.constantFrom(...Outcome.options),
    words: fc.string({ maxLength: 20 }),
    audience: fc.constantFrom('crew' as const, 'person' as const),
    about: fc.array(fc.oneof(fc.constantFrom(...Topic.options), fc.string({ maxLength: 8 })), {
      maxLength: 4,
    }),
    first: fc.array(fc.constantFrom(...ids), { maxLength: 3 }),
  })
  .map(({ outcome, words, audience, about, first }) =>
    reply(outcome, asTyped(words), { audience, safety: { about, first } }),
  )

test('no answer leaves without a safety line that exists, those asked for among them', async () => {
  const { desk, answer } = await open()
  await fc.assert(
    fc.asyncProperty(toyReply, async (told) => {
      const { reply: shown } = await answer(told)
      const chosen = shown.safety.chosen ?? []
      expect(chosen.length).toBeGreaterThan(0)
      expect(ids).toEqual(expect.arrayContaining(chosen))
      expect(chosen).toEqual(expect.arrayContaining([...(told.safety.first ?? [])]))
    }),
    { numRuns: 60 },
  )
  expect(desk.errors).toEqual([])
})

test('a command that asks for a line that is not there gets another', async () => {
  const { answer } = await open()
  const { reply: shown, number } = await answer(
    reply('answer', asTyped('mixed'), { safety: { about: ['mixing'], first: ['no.such-line'] } }),
  )
  expect(number).toBe(1)
  expect(shown.safety.chosen).toHaveLength(1)
  expect(ids).toContain(shown.safety.chosen?.[0])
})

test('the same line does not stand under two answers running', async () => {
  const { answer } = await open()
  const lines: (string | undefined)[] = []
  for (let n = 0; n < 6; n++)
    lines.push((await answer(reply('answer', asTyped('x')))).reply.safety.chosen?.[0])
  for (const [at, line] of lines.entries()) expect(line).not.toBe(lines[at + 1])
})
