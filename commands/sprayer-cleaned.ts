import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { again } from '#src/desk/again.ts'
import { defineCommand, type Tools } from '#src/desk/command.ts'
import { pick } from '#src/mixing/resolve.ts'

const options = z.strictObject({
  sprayer: z.string().min(1).max(80).meta({ suggest: 'sprayers' }),
  rinsed: z.boolean().optional(),
})

/** Logs that a sprayer is empty and rinsed three times; `rinsed:no` says that it is only empty. */
export default defineCommand({
  name: 'sprayer cleaned',
  may: 'crew',
  options,
  state: options,
  start: note,
  next: again(options, note),
})

async function note(given: z.infer<typeof options>, { store, person, turn, nowMs }: Tools) {
  const found = pick(given, 'sprayer', given.sprayer, await store.sprayers.list())
  if (!found.ok) return found.ask
  const kind = given.rinsed === false ? 'emptied' : 'cleaned'
  const [last] = await store.sprayers.listEvents(found.value.id, 1)
  await store.sprayers.addEvent({
    sprayerId: found.value.id,
    personId: person.id,
    turnId: turn.id,
    kind,
    atMs: nowMs,
    details: { ...(last?.details ?? { products: [], rate: null, output: null, note: '' }), volume: null },
  })
  return {
    reply: reply('answer', say(`sprayer.noted-${kind}`, { name: found.value.name }), {
      safety: { about: ['cleanup'] },
    }),
  }
}
