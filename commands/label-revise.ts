import { z } from 'zod'
import { revised, reviseForm, waitsRevised } from '#src/book/revise.ts'
import { waitsForm } from '#src/book/waits.ts'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { type Answer, defineCommand, type Tools } from '#src/desk/command.ts'
import { pick } from '#src/mixing/resolve.ts'

const options = z.strictObject({
  product: z.string().min(1).max(80).meta({ suggest: 'products' }),
  line: z.string().min(1).max(40).optional(),
  what: z.enum(['rates', 'waits']).optional(),
})
type Options = z.infer<typeof options>

/** Changes one rate line, or what has to wait, after a new label: what changed waits until a second person has retyped it. */
export default defineCommand({
  name: 'label revise',
  may: 'lead',
  copiesLabels: true,
  options,
  state: options,
  start: ask,
  async next(given, event, tools) {
    if (event.kind === 'press') return ask(options.parse({ ...given, ...(event.value as object) }), tools)
    const found = pick(given, 'product', given.product, await tools.store.labels.list())
    if (!found.ok) return found.ask
    const keep = event.step === 'waits' ? waitsRevised : revised
    return keep(given, found.value, event.fields, tools)
  },
})

async function ask(given: Options, tools: Tools): Promise<Answer> {
  const found = pick(given, 'product', given.product, await tools.store.labels.list())
  if (!found.ok) return found.ask
  const body = found.value.live?.body
  if (body === undefined)
    return {
      reply: reply('hold', say('mixing.not-live', { product: found.value.name }), { audience: 'person' }),
    }
  if (given.what === 'waits')
    return {
      reply: reply('question', say('book.revise.title', { product: body.name }), {
        form: waitsForm(body),
        audience: 'person',
        safety: { about: ['measuring'] },
      }),
      state: given,
    }
  const line =
    body.rateLines.find(({ id }) => id === given.line) ??
    (body.rateLines.length === 1 ? body.rateLines[0] : undefined)
  if (line === undefined)
    return {
      reply: reply('question', say('book.revise.which', { product: body.name }), {
        audience: 'person',
        choices: body.rateLines.map((one) => ({
          label: say('words.as-typed', { words: one.line.slice(0, 70) }),
          to: { step: 'set', value: { line: one.id } },
        })),
      }),
      state: given,
    }
  return {
    reply: reply('question', say('book.revise.title', { product: body.name }), {
      form: reviseForm(body, line),
      audience: 'person',
      safety: { about: ['measuring'] },
    }),
    state: { ...given, line: line.id },
  }
}
