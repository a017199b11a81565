import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { again } from '#src/desk/again.ts'
import { defineCommand, type Tools } from '#src/desk/command.ts'
import { pick } from '#src/mixing/resolve.ts'

const options = z.strictObject({ sprayer: z.string().min(1).max(80).meta({ suggest: 'sprayers' }) })

/** Takes a sprayer off the lists. */
export default defineCommand({
  name: 'sprayer retire',
  may: 'lead',
  options,
  state: options,
  start: retire,
  next: again(options, retire),
})

async function retire(given: z.infer<typeof options>, tools: Tools) {
  const found = pick(given, 'sprayer', given.sprayer, await tools.store.sprayers.list())
  if (!found.ok) return found.ask
  await tools.store.sprayers.retire(found.value.id, tools.nowMs)
  await tools.namesChanged()
  return {
    reply: reply('answer', say('sprayer.retired', { name: found.value.name }), {
      audience: 'person' as const,
    }),
  }
}
