import { z } from 'zod'
import { type Reply, reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { defineCommand } from '#src/desk/command.ts'
import { pick } from '#src/mixing/resolve.ts'

/** Commands whose answers nobody looks for again. */
const PASSING = new Set(['last', 'answers', 'clock', 'line'])
const LOOKED_AT = 40

/** Brings back a person's latest answers: the newest whole, those before it by number. */
export default defineCommand({
  name: 'last',
  may: 'crew',
  options: z.strictObject({
    number: z.int().positive().optional(),
    person: z.string().min(1).max(80).optional().meta({ suggest: 'people' }),
  }),
  async start({ number, person }, tools) {
    const { store, isLead } = tools
    const who = person === undefined ? null : pick({}, 'person', person, await store.people.list())
    if (who !== null && !who.ok) return who.ask
    if (who !== null && who.value.id !== tools.person.id && !isLead)
      return { reply: reply('refusal', say('answers.own-only'), { audience: 'person' }) }
    const personId = who?.value.id ?? tools.person.id
    const all = await store.turns.list({ personId, limit: LOOKED_AT })
    const found = all.filter((one) => !PASSING.has(one.command))
    const newest = number === undefined ? found[0] : all.find((one) => one.number === number)
    if (newest === undefined) return { reply: reply('question', say('last.none'), { audience: 'person' }) }
    const others = found.filter((one) => one.number < newest.number).slice(0, 3)
    return {
      reply: {
        ...again(newest.reply),
        title: say('last.title', { number: String(newest.number), title: newest.reply.title }),
        lines: [
          ...newest.reply.lines,
          ...others.map((one) => say('last.before', { number: String(one.number), title: one.reply.title })),
        ],
      },
    }
  },
})

/** What was said, without buttons: they still stand under the answer itself. */
function again({ safety, ...answer }: Reply): Reply {
  const { chosen: _chosen, ...about } = safety
  return { ...answer, choices: [], form: null, files: [], audience: 'person', safety: about }
}
