import type { Big } from '#src/quantity/big.ts'
import { big, compareNumbers } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn, quantity } from '#src/quantity/quantity.ts'
import type { Calculated, Finding } from '../worked.ts'
import { blocked, finding, step, worked } from '../worked.ts'
import type { Length } from './measured.ts'
import { doubts } from './measured.ts'

/** One pan of a row across the spreader's path: how far to the side it stood and what it caught. */
export interface Pan {
  /** Below zero to the left of the wheel track, zero in it, above zero to the right. */
  readonly offset: Length
  /** Weight, or height of the fill: whatever measure, the same for all pans. */
  readonly caught: string
}

export interface EffectiveSwath {
  readonly swath: Quantity<'ft'>
  readonly left: Quantity<'ft'>
  readonly right: Quantity<'ft'>
}

/**
 * Effective swath of a rotary spreader (F45): from where the catch falls to half of the center pan's on the left to
 * where it does on the right, read between two pans on a straight line. Penn State turf procedure as printed in a
 * trade journal (2016): at least three passes the same way.
 */
export function effectiveSwath(pans: readonly Pan[]): Calculated<EffectiveSwath> {
  const sorted = [...pans].sort((a, b) => compareNumbers(amountIn(a.offset, 'ft'), amountIn(b.offset, 'ft')))
  const center = sorted.find((pan) => big(pan.offset.value).isZero())
  const negative = sorted.find((pan) => big(pan.caught).lt(0))
  if (negative !== undefined)
    return blocked(finding('refusal', 'calibrate.negative-catch', { offset: negative.offset }))
  if (center === undefined || big(center.caught).isZero())
    return blocked(finding('question', 'calibrate.no-center-pan', {}))
  const middle = sorted.indexOf(center)
  const left = halfPoint(sorted.slice(0, middle + 1).reverse())
  const right = halfPoint(sorted.slice(middle))
  if (left === null || right === null) {
    const side = { say: left === null ? 'calibrate.side.left' : 'calibrate.side.right' }
    return blocked(finding('question', 'calibrate.pans-too-few', { side }))
  }
  const told = {
    swath: quantity(right.minus(left), 'ft'),
    left: quantity(left.abs(), 'ft'),
    right: quantity(right, 'ft'),
  }
  const problems = doubts({ swath: told.swath })
  if (problems.length > 0) return blocked(...problems)
  return worked(told, [step('calibrate.effective-swath', { ...told })], lopsided(told))
}

/** Outwards from the center: where the catch first falls to half, in feet, or null if it never does. */
function halfPoint(outwards: readonly Pan[]): Big | null {
  const [center] = outwards
  if (center === undefined) return null
  const half = big(center.caught).div(2)
  for (const [index, pan] of outwards.entries()) {
    const before = outwards[index - 1]
    if (before === undefined || big(pan.caught).gt(half)) continue
    const from = amountIn(before.offset, 'ft')
    const way = amountIn(pan.offset, 'ft').minus(from)
    const fall = big(before.caught).minus(big(pan.caught))
    return from.plus(way.times(big(before.caught).minus(half)).div(fall))
  }
  return null
}

/** One side more than half as wide again as the other: the spreader throws to one side. */
function lopsided(told: EffectiveSwath): Finding[] {
  const wide = big(told.left.value).gt(big(told.right.value)) ? told.left : told.right
  const narrow = wide === told.left ? told.right : told.left
  const uneven = big(wide.value).gt(big(narrow.value).times('1.5'))
  return uneven ? [finding('heads-up', 'calibrate.lopsided', { left: told.left, right: told.right })] : []
}
