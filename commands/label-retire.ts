import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { again } from '#src/desk/again.ts'
import { defineCommand, type Tools } from '#src/desk/command.ts'
import { pick } from '#src/mixing/resolve.ts'

const options = z.strictObject({ product: z.string().min(1).max(80).meta({ suggest: 'products' }) })

/** Takes a product out of use. Its revisions stay, for the answers that named them. */
export default defineCommand({
  name: 'label retire',
  may: 'lead',
  options,
  state: options,
  start: retire,
  next: again(options, retire),
})

async function retire(given: z.infer<typeof options>, tools: Tools) {
  const found = pick(given, 'product', given.product, await tools.store.labels.list())
  if (!found.ok) return found.ask
  await tools.store.labels.retire(found.value.id, tools.nowMs)
  await tools.namesChanged()
  return {
    reply: reply('answer', say('book.retired', { name: found.value.name }), {
      audience: 'person' as const,
      safety: { about: ['records'] },
    }),
  }
}
