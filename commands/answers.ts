import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { defineCommand } from '#src/desk/command.ts'
import { pick } from '#src/mixing/resolve.ts'
import { readDay } from '#src/site/read-day.ts'

const SHOWN = 12

/** Answers that were given, by number: a person's own, or for a lead the crew's. */
export default defineCommand({
  name: 'answers',
  may: 'crew',
  options: z.strictObject({
    person: z.string().min(1).max(80).optional().meta({ suggest: 'people' }),
    day: z.string().min(1).max(40).optional(),
    command: z.string().min(1).max(40).optional(),
  }),
  async start({ person, day, command }, tools) {
    const { store, isLead, today, crew } = tools
    const who = person === undefined ? null : pick({}, 'person', person, await store.people.list())
    if (who !== null && !who.ok) return who.ask
    if (who !== null && who.value.id !== tools.person.id && !isLead)
      return { reply: reply('refusal', say('answers.own-only'), { audience: 'person' }) }
    const on = day === undefined ? undefined : readDay(day, today)
    if (on === null)
      return { reply: reply('refusal', say('answers.day', { text: day ?? '' }), { audience: 'person' }) }
    const personId = who?.value.id ?? (isLead ? undefined : tools.person.id)
    const found = await store.turns.list({
      limit: SHOWN,
      ...(personId === undefined ? {} : { personId }),
      ...(on === undefined ? {} : { day: on }),
      ...(command === undefined ? {} : { command: command.replace(/^\//, '') }),
    })
    const names = new Map((await store.people.list()).map(({ id, name }) => [id, name]))
    return {
      reply: reply('answer', say('answers.title', { count: found.length }), {
        lines: found.map((one) =>
          say('answers.line', {
            number: String(one.number),
            at: { atMs: one.createdAtMs, zone: crew.zone, style: 'date-time' },
            person: names.get(one.personId) ?? '',
            command: { literal: `/${one.command}` },
            outcome: say(`outcome.${one.outcome}`),
            answer: one.reply.title,
          }),
        ),
        audience: 'person',
        safety: { about: ['records'] },
      }),
    }
  },
})
