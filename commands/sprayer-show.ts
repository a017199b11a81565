import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { again } from '#src/desk/again.ts'
import { defineCommand, type Tools } from '#src/desk/command.ts'
import { pick } from '#src/mixing/resolve.ts'
import { sprayerCard } from '#src/sprayer/sprayer-card.ts'

const options = z.strictObject({
  sprayer: z.string().min(1).max(80).optional().meta({ suggest: 'sprayers' }),
})

/** One sprayer with its contents and outputs; without a name, all of them. */
export default defineCommand({
  name: 'sprayer show',
  may: 'crew',
  options,
  state: options,
  start: show,
  next: again(options, show),
})

async function show(given: z.infer<typeof options>, tools: Tools) {
  const all = await tools.store.sprayers.list()
  if (given.sprayer === undefined)
    return {
      reply: reply('answer', say('sprayer.list', { count: all.length }), {
        lines: all.map(({ name, details }) => say('sprayer.title', { name, tank: details.tank })),
        audience: 'person' as const,
      }),
    }
  const found = pick(given, 'sprayer', given.sprayer, all)
  return found.ok ? { reply: await sprayerCard(found.value, tools) } : found.ask
}
