import type { Form } from '#src/label/entry.ts'
import { compareNumbers, sumOf } from '#src/quantity/big.ts'
import {
  amountIn,
  compareQuantities,
  convert,
  isZero,
  type Quantity,
  quantity,
} from '#src/quantity/quantity.ts'
import { isMassUnit } from '#src/quantity/units.ts'
import type { Amount } from '#src/record/product.ts'
import type { StockMovement } from '#src/store/stock.ts'

/** What is there of one product, and what is known about that. */
export interface OnHand {
  readonly product: string
  /** In the unit in which it last came in or was counted; below zero when records used more than was ever there. */
  readonly amount: Quantity
  /** The count that everything after it is reckoned from; null while nobody has counted. */
  readonly counted: StockMovement | null
  /** Amounts that are a weight for a liquid or a volume for a dry product: they are in no sum. */
  readonly unreckoned: readonly StockMovement[]
  readonly low: Amount | null
  readonly isLow: boolean
  /** Below zero: something came in that nobody wrote down, or a record is wrong. */
  readonly isOver: boolean
  /** The newest of what came in, was counted or set: a note on low stock is given once until one of these is new. */
  readonly since: number
}

/** Is this amount of the kind that a product of this form is measured in? */
export function fitsForm(amount: Quantity, form: Form): boolean {
  return isMassUnit(amount.unit) === (form === 'dry')
}

/**
 * What is there: the last count, what came in after it, less what records used after it. It depends on when things
 * happened, not on when they were written down: a job logged late, and done before the count, was counted.
 * @param movements of one product, in any order; voided ones left out
 * @param form as in the label book: an ounce of a dry product is a weight, of a liquid a fluid ounce
 */
export function onHand(product: string, movements: readonly StockMovement[], form: Form): OnHand {
  const fitting = movements.filter(({ amount }) => fitsForm(amount, form))
  const counted = newest(fitting.filter(({ kind }) => kind === 'count'))
  const after = (movement: StockMovement) => counted === null || movement.atMs > counted.atMs
  const cameIn = fitting.filter((one) => one.kind === 'in' && after(one))
  const used = fitting.filter((one) => one.kind === 'used' && after(one))
  const unit = unitOf(fitting, form)
  // Added up in milliliters or grams, of which every unit is a finite number: no order leaves other dust than another.
  const base = form === 'dry' ? 'g' : 'mL'
  const inBase = (movements: readonly StockMovement[]) =>
    sumOf(movements.map((one) => amountIn(one.amount, base)))
  const total = inBase(counted === null ? cameIn : [counted, ...cameIn]).minus(inBase(used))
  const amount = convert(quantity(total, base), unit)
  const mark = newest(fitting.filter(({ kind }) => kind === 'low'))
  const low = mark === null || isZero(mark.amount) ? null : mark.amount
  return {
    product,
    amount,
    counted,
    unreckoned: movements.filter((one) => !fitsForm(one.amount, form)),
    low,
    isLow: low !== null && compareQuantities(amount, low) < 0,
    isOver: compareNumbers(amount.value, 0) < 0,
    since: Math.max(0, ...movements.filter(({ kind }) => kind !== 'used').map(({ id }) => id)),
  }
}

/** The one that happened last; of two at one moment the one that was written down later. */
export function newest(movements: readonly StockMovement[]): StockMovement | null {
  return movements.reduce<StockMovement | null>(
    (best, one) =>
      best === null || one.atMs > best.atMs || (one.atMs === best.atMs && one.id > best.id) ? one : best,
    null,
  )
}

/** The unit that the crew used last for what it holds itself; else that of the records. */
function unitOf(fitting: readonly StockMovement[], form: Form): Quantity['unit'] {
  const own = newest(fitting.filter(({ kind }) => kind === 'in' || kind === 'count'))
  return (own ?? newest(fitting))?.amount.unit ?? (form === 'dry' ? 'oz wt' : 'fl oz')
}
