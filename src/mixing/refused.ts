import { measureOf } from '#src/calculator/rate/measure.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import type { Verdict } from '#src/label/verdict.ts'
import type { Rate } from '#src/quantity/rate.ts'
import { sayRate } from '#src/quantity/said.ts'
import type { Ready } from './ready.ts'
import { tellLeads } from './tell-leads.ts'

const ABOVE = new Set(['label.above-maximum', 'label.above-application', 'label.above-year'])
const SAME_DIGITS = 4

/** The same rate however it is written: `3 pt/acre` and `1.5 qt/acre` are one. */
function sameness(rate: Rate): string {
  const { number, count, base, of } = measureOf(rate)
  return `${number.toSignificantDigits(SAME_DIGITS).toString()} ${count}/${base} ${of}`
}

/** Remembers a rate that the book refused, for whoever types it off a label next. */
export async function rememberRefusal({ named, rate }: Ready, verdict: Verdict, tools: Tools): Promise<void> {
  if (named.product === null || !tools.canWrite || !verdict.reasons.some(({ id }) => ABOVE.has(id))) return
  await tools.store.refusedRates.add({
    personId: tools.person.id,
    product: named.product.name,
    rate: sameness(rate),
    atMs: tools.nowMs,
  })
}

/** A typed rate that the book has refused is answered, and shown to every lead. */
export async function repeatsRefusal({ rate }: Ready, tools: Tools): Promise<Text[]> {
  const refused = await tools.store.refusedRates.find(sameness(rate))
  if (refused === undefined) return []
  const told = { rate: sayRate(rate), product: refused.product, person: tools.person.name }
  await tellLeads(say('mixing.lead-refusal', told), `refused-${tools.turn.id}`, tools)
  return [say('mixing.repeats-refusal', told)]
}
