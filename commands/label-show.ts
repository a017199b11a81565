import { z } from 'zod'
import { entryCard } from '#src/book/entry-card.ts'
import { waitingRevision } from '#src/book/keep-entry.ts'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { again } from '#src/desk/again.ts'
import { defineCommand, type Tools } from '#src/desk/command.ts'
import { pick } from '#src/mixing/resolve.ts'

const options = z.strictObject({
  product: z
    .string()
    .min(1)
    .max(80)
    .meta({ suggest: 'products', aliases: ['name'] }),
})

/** One product of the label book: rates, limits, revisions. */
export default defineCommand({
  name: 'label show',
  may: 'crew',
  options,
  state: options,
  start: show,
  next: again(options, show),
})

async function show(given: z.infer<typeof options>, tools: Tools) {
  const { store } = tools
  const found = pick(given, 'product', given.product, await store.labels.list())
  if (!found.ok) return found.ask
  const { live, id, name, confirmedOn } = found.value
  const waiting = await waitingRevision(tools, id)
  const body = live?.body ?? waiting?.body
  if (body === undefined)
    return { reply: reply('refusal', say('book.empty', { name }), { audience: 'person' as const }) }
  const revisions = await store.labels.listRevisions(id)
  return {
    reply: entryCard(body, say('book.card.title', { name }), [
      ...(live === null ? [say('book.card.not-live')] : []),
      ...(waiting === undefined ? [] : [say('book.card.waiting', { revision: waiting.revision })]),
      ...(confirmedOn === null ? [] : [say('book.card.confirmed', { day: { day: confirmedOn } })]),
      say('book.card.revisions', { count: revisions.length }),
    ]),
  }
}
