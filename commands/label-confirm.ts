import { z } from 'zod'
import { waitingRevision } from '#src/book/keep-entry.ts'
import { askToRetype, RetypeState, retype } from '#src/book/retype.ts'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { type Answer, defineCommand, type Tools } from '#src/desk/command.ts'
import { pick } from '#src/mixing/resolve.ts'

const options = z.strictObject({
  product: z.string().min(1).max(80).optional().meta({ suggest: 'products' }),
  all: z.boolean().optional(),
})
type Options = z.infer<typeof options>

/**
 * A second person retypes new rates from the label, and they go live; or a lead says that entries have been held
 * against their labels again, one or all.
 */
export default defineCommand({
  name: 'label confirm',
  may: 'crew',
  options,
  state: z.strictObject({ given: options, retype: RetypeState.nullable() }),
  start: (given, tools) => confirm(given, tools),
  async next(state, event, tools) {
    if (event.kind === 'submit' && state.retype !== null) return retype(state.retype, event.fields, tools)
    if (event.step === 'looked') return look(state.given, tools)
    return confirm(options.parse({ ...state.given, ...(event.value as object) }), tools)
  },
})

async function confirm(given: Options, tools: Tools): Promise<Answer> {
  const { store } = tools
  const state = { given, retype: null }
  if (given.product === undefined) {
    if (given.all === true)
      return askLooked(given, say('book.confirm.all-question', { count: (await live(tools)).length }))
    return { reply: reply('question', say('book.confirm.which'), { audience: 'person' }), state }
  }
  const found = pick(given, 'product', given.product, await store.labels.list())
  if (!found.ok) return { ...found.ask, state }
  const waiting = await waitingRevision(tools, found.value.id)
  if (waiting !== undefined) return askToRetype(waiting, found.value.live?.body ?? null, tools)
  return askLooked(given, say('book.confirm.question', { name: found.value.name }))
}

const live = async ({ store }: Tools) => (await store.labels.list()).filter((entry) => entry.live !== null)

/** Holding an entry against its label is a lead's word. */
function askLooked(given: Options, title: ReturnType<typeof say>): Answer {
  return {
    reply: reply('question', title, {
      lines: [say('book.confirm.how')],
      audience: 'person',
      choices: [{ label: say('book.confirm.looked'), to: { step: 'looked' }, who: 'lead' }],
      safety: { about: ['measuring'] },
    }),
    state: { given, retype: null },
  }
}

async function look(given: Options, tools: Tools): Promise<Answer> {
  if (!tools.isLead) return { reply: reply('refusal', say('desk.lead-only'), { audience: 'person' }) }
  const all = await live(tools)
  const chosen =
    given.product === undefined
      ? all
      : all.filter(({ name }) => name.toLowerCase() === given.product?.toLowerCase())
  for (const { id } of chosen) await tools.store.labels.confirm(id, tools.today)
  return {
    reply: reply('answer', say('book.confirm.done', { count: chosen.length }), {
      audience: 'person',
      safety: { about: ['measuring'] },
    }),
  }
}
