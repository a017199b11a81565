import { reader } from '#src/conversation/reader.ts'
import { reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { pick } from '#src/mixing/resolve.ts'
import { scale } from '#src/quantity/quantity.ts'
import { recordName } from '#src/record/number.ts'
import type { Amount } from '#src/record/product.ts'
import { onHandOf } from './book.ts'
import { sayOnHand, stockFacts } from './words.ts'

interface Given {
  readonly product: string
  readonly amount: string
  readonly packs?: number | undefined
}

type Read =
  | { readonly ok: true; readonly entry: LabelEntry; readonly amount: Amount }
  | { readonly ok: false; readonly ask: Answer }

/** The product in the label book, and the amount in what its form is measured in: weight or volume. */
export async function readStock(given: Given, tools: Tools): Promise<Read> {
  const found = pick(given, 'product', given.product, await tools.store.labels.list())
  if (!found.ok) return found
  const entry = found.value.live?.body
  if (entry === undefined) return refused([say('mixing.not-live', { product: found.value.name })])
  const read = reader(tools.locale)
  const isDry = entry.form === 'dry'
  const amount = isDry
    ? read.quantity('amount', given.amount, { expect: 'mass', ounce: 'oz wt', allowZero: true })
    : read.quantity('amount', given.amount, { expect: 'volume', ounce: 'fl oz', allowZero: true })
  if (amount === undefined) {
    const kind = say(isDry ? 'stock.dry' : 'stock.liquid', { product: entry.name })
    return refused([...read.problems, kind])
  }
  return { ok: true, entry, amount: scale(amount, given.packs ?? 1) }
}

/** Writes down that so much is there now, or at which amount the leads are told. */
export async function writeDown(kind: 'count' | 'low', given: Given, tools: Tools): Promise<Read> {
  const { store, person, nowMs } = tools
  const read = await readStock(given, tools)
  if (!read.ok) return read
  const { entry, amount } = read
  const movement = { personId: person.id, product: entry.name, kind, amount, lot: null }
  await store.stock.add({ ...movement, atMs: nowMs }, nowMs)
  return read
}

export function refused(problems: readonly Text[]): { readonly ok: false; readonly ask: Answer } {
  const answer = reply('refusal', say('stock.cannot'), { lines: [...problems], audience: 'person' })
  return { ok: false, ask: { reply: answer } }
}

/** What is there now, after something was written down. */
export async function stockCard(title: Text, product: string, tools: Tools): Promise<Answer> {
  const there = await onHandOf(product, tools.store)
  const isFine = !there.isLow && !there.isOver && there.unreckoned.length === 0
  return {
    reply: reply(isFine ? 'answer' : 'heads-up', title, {
      lines: [
        sayOnHand(there),
        ...(there.low === null ? [] : [say('stock.mark', { amount: there.low })]),
        ...unreckonedLines(there),
      ],
      facts: stockFacts(there),
      audience: 'person',
      safety: { about: ['records'] },
    }),
  }
}

/** Records whose amount is a weight for a liquid, or a volume for a dry product. */
export function unreckonedLines({ unreckoned }: Awaited<ReturnType<typeof onHandOf>>): Text[] {
  return unreckoned
    .slice(0, 3)
    .map(({ amount, recordNumber }) =>
      recordNumber === null
        ? say('stock.unreckoned', { amount })
        : say('stock.unreckoned-record', { amount, record: recordName(recordNumber) }),
    )
}
