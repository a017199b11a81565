import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { again } from '#src/desk/again.ts'
import { defineCommand, type Tools } from '#src/desk/command.ts'
import { pickSite } from '#src/mixing/resolve.ts'

const options = z.strictObject({ site: z.string().min(1).max(80).meta({ suggest: 'sites' }) })

/** Takes a property off the lists. Its records stay. */
export default defineCommand({
  name: 'site retire',
  may: 'lead',
  options,
  state: options,
  start: retire,
  next: again(options, retire),
})

async function retire(given: z.infer<typeof options>, tools: Tools) {
  const found = await pickSite(given, given.site, tools)
  if (!found.ok) return found.ask
  await tools.store.sites.retire(found.value.id, tools.nowMs)
  await tools.namesChanged()
  return {
    reply: reply('answer', say('site.retired', { name: found.value.name }), {
      audience: 'person',
      safety: { about: ['records'] },
    }),
  }
}
