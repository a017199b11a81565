import type { Fact } from '#src/conversation/reply.ts'
import { factValue } from '#src/conversation/steps.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { handyUnit } from '#src/mixing/handy-unit.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { recordName } from '#src/record/number.ts'
import type { StockMovement } from '#src/store/stock.ts'
import type { OnHand } from './on-hand.ts'

/** One line of the list: the number first, then what is the matter with it. */
export function sayOnHand(there: OnHand): Text {
  const amount = handyUnit(there.amount)
  const { product } = there
  if (there.isOver) return say('stock.line-over', { product, amount: beyond(there) })
  return say(there.isLow ? 'stock.line-low' : 'stock.line', { product, amount })
}

/** How much more was used than was ever there. */
function beyond({ amount }: OnHand): Quantity {
  return handyUnit({ value: amount.value.replace(/^-/, ''), unit: amount.unit })
}

/** What a lead is told, once, of a product below its mark. */
export function sayLow(there: OnHand): Text {
  if (there.isOver) return sayOnHand(there)
  return say('stock.low-note', { product: there.product, amount: handyUnit(there.amount) })
}

export function stockFacts(there: OnHand): Fact[] {
  return [
    { name: 'product', value: there.product },
    { name: 'on_hand', value: factValue(there.amount.value), unit: there.amount.unit },
    { name: 'low', value: there.isLow },
  ]
}

/** `May 4: 2 gal came in, lot 7.` */
export function sayMovement({ kind, amount, atMs, lot, recordNumber }: StockMovement, zone: string): Text {
  const at = { atMs, zone, style: 'date' } as const
  if (kind === 'used') return say('stock.used', { at, amount, record: recordName(recordNumber ?? 0) })
  if (kind === 'in' && lot !== null) return say('stock.in-lot', { at, amount, lot })
  return say(`stock.${kind}`, { at, amount })
}
