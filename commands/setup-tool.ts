import { z } from 'zod'
import { reader } from '#src/conversation/reader.ts'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { defineCommand } from '#src/desk/command.ts'

/** Adds a measuring tool of the crew, changes it, or takes it away. */
export default defineCommand({
  name: 'setup tool',
  may: 'lead',
  options: z.strictObject({
    name: z.string().min(1).max(60),
    kind: z.enum(['scale', 'cylinder', 'spoon']).optional(),
    step: z.string().min(1).max(60).optional(),
    up_to: z.string().min(1).max(60).optional(),
    remove: z.boolean().optional(),
  }),
  async start({ name, kind, step, up_to, remove }, { crew, updateCrew, locale }) {
    const same = (one: { name: string }) => one.name.toLowerCase() === name.toLowerCase()
    const known = crew.settings.tools.find(same)
    const others = crew.settings.tools.filter((one) => !same(one))
    const keep = (tools: typeof others) => updateCrew({ settings: { ...crew.settings, tools } })
    if (remove === true) {
      await keep(others)
      return { reply: reply('answer', say('setup.tool-removed', { name }), { audience: 'person' }) }
    }
    const read = reader(locale)
    const wanted = kind ?? known?.kind ?? 'cylinder'
    const expect = wanted === 'scale' ? 'mass' : 'volume'
    const size = read.quantity('step', step, { expect }) ?? known?.step
    const most = read.quantity('up_to', up_to, { expect }) ?? known?.upTo
    if (size === undefined) read.refuse('step', say('setup.tool-step'))
    if (size === undefined || read.problems.length > 0)
      return {
        reply: reply('refusal', say('setup.cannot'), { lines: [...read.problems], audience: 'person' }),
      }
    await keep([...others, { name, kind: wanted, step: size, ...(most === undefined ? {} : { upTo: most }) }])
    return {
      reply: reply('answer', say('setup.tool-kept', { name }), {
        lines: [say('setup.tool', { name, step: size })],
        audience: 'person',
        safety: { about: ['measuring'] },
      }),
    }
  },
})
