import fc from 'fast-check'
import { beforeAll, describe, expect, test } from 'vitest'
import { commands } from '#commands/index.ts'
import { Outcome, Reply } from '#src/conversation/reply.ts'
import type { Answered } from '#src/desk/desk.ts'
import { present } from '#src/messengers/present.ts'
import { moves, optionsFor } from './nasty.ts'
import { type AbuseStage, complaintsAbout, MARK, OTHER, openStage } from './stage.ts'

/** Conversations that are tried with each command; more of them: ABUSE_RUNS. */
const RUNS = Number(process.env.ABUSE_RUNS ?? 8)

let stage: AbuseStage
beforeAll(async () => {
  stage = await openStage()
})

/** What must hold of every reply, whatever was asked. */
function expectSound(answered: Answered, asked: string): void {
  const { reply } = answered
  expect(Outcome.options).toContain(reply.outcome)
  expect(Reply.safeParse(JSON.parse(JSON.stringify(reply))).success).toBe(true)
  for (const locale of ['en', 'es']) {
    const presented = present(stage.bot.words, answered, { locale, escape: (typed) => typed })
    expect(presented.title.trim(), asked).not.toBe('')
  }
  expect(answered.number, asked).not.toBeNull()
  expect(complaintsAbout(stage.bot, answered), asked).toEqual([])
}

/** Words of the other crew in a reply that nobody of this crew has typed. */
const betrays = (answered: Answered, typed: string) =>
  !typed.includes(MARK) && JSON.stringify(answered.reply).includes(MARK)

describe.each(commands.map((command) => [command.name, command] as const))('/%s', (name, command) => {
  test('whatever is typed into it and pressed, it answers with a sentence and shows nothing of another crew', async () => {
    const { names, member, lead } = stage
    const before = await stage.otherRows()
    await fc.assert(
      fc.asyncProperty(
        fc.boolean(),
        optionsFor(command.options, names),
        moves(names),
        async (byLead, options, then) => {
          const typed = JSON.stringify([options, then])
          const from = stage.errors.length
          const replies = await stage.play(byLead ? lead : member, name, options, then)
          expect(stage.errors.slice(from), `${name} ${typed}`).toEqual([])
          for (const answered of replies) {
            expectSound(answered, `${name} ${typed}`)
            expect(betrays(answered, typed), `${name} ${typed}`).toBe(false)
          }
        },
      ),
      { numRuns: RUNS, seed: 20261127, endOnFailure: true },
    )
    expect(await stage.otherRows()).toBe(before)
  }, 120_000)
})

describe('a crew member and what only leads may do', () => {
  const forLeads = commands.filter(({ may }) => may === 'lead')

  test('there are such commands', () => {
    expect(forLeads.length).toBeGreaterThan(5)
  })

  test.each(forLeads.map((command) => [command.name, command] as const))(
    '/%s is refused by its name, by a press on a lead’s reply and by a lead’s form',
    async (name, command) => {
      const { member, lead, bot, names } = stage
      const [options = {}] = fc.sample(optionsFor(command.options, names), { numRuns: 1, seed: 7 })
      const [refused] = await stage.play(member, name, options, [])
      expect(refused?.reply).toMatchObject({ outcome: 'refusal', title: { say: 'desk.lead-only' } })

      const [asked] = await stage.play(lead, name, options, [])
      const turnId = asked?.turnId ?? 0
      for (const choice of [1, 2, 3, 'form'] as const) {
        const base = { id: `by-member-${name}-${choice}`, by: member, atMs: 0 }
        const token = `s1.${turnId.toString(36)}.${choice === 'form' ? 'f' : choice}`
        const pressed = await bot.desk.answer({ ...base, kind: 'press', token })
        expect(pressed.reply.outcome).toBe('refusal')
        const sent = await bot.desk.answer({ ...base, id: `${base.id}-s`, kind: 'submit', token, fields: {} })
        expect(sent.reply.outcome).toBe('refusal')
      }
    },
  )
})

test('tokens of one crew lead nowhere in another, whichever turn they name', async () => {
  const { bot, lead } = stage
  const before = await stage.otherRows()
  const foreign = await bot.database.db
    .selectFrom('turns')
    .innerJoin('crews', 'crews.id', 'turns.crewId')
    .select('turns.id')
    .where('crews.key', '=', OTHER.crewKey)
    .execute()
  expect(foreign.length).toBeGreaterThan(0)
  for (const { id } of foreign)
    for (const choice of ['1', '2', 'f']) {
      const token = `s1.${id.toString(36)}.${choice}`
      const base = { id: `foreign-${id}-${choice}`, by: { ...lead, runsServer: true }, atMs: 0 }
      const answered = await bot.desk.answer({ ...base, kind: 'press', token })
      expect(answered.reply.lines).toMatchObject([{ say: 'desk.unknown-choice' }])
      expect(await bot.desk.recall(id, lead)).toBeNull()
    }
  expect(await stage.otherRows()).toBe(before)
})
