import type { Big, Numeric } from './big.ts'
import { big, settle } from './big.ts'

export type RoundingWay = 'down' | 'nearest' | 'up'

const WAYS: Record<RoundingWay, (steps: Big) => Big> = {
  down: (steps) => steps.floor(),
  nearest: (steps) => steps.plus('0.5').floor(),
  up: (steps) => steps.ceil(),
}

/**
 * The whole number of steps in a value. A value that is a whole number of steps but for lost digits counts as
 * one: 0.226 in steps of 0.001 is 226, never 225. Halves go up when asked for the nearest.
 * @throws RangeError when the step is not above zero.
 */
export function countSteps(value: Numeric, step: Numeric, way: RoundingWay): Big {
  const size = big(step)
  if (size.lte(0)) throw new RangeError(`Cannot round to a step of ${step}: the step must be above zero`)
  return WAYS[way](settle(big(value).div(size)))
}

/** The value rounded to whole steps. */
export function roundToStep(value: Numeric, step: Numeric, way: RoundingWay): Big {
  return countSteps(value, step, way).times(big(step))
}

/** The value with so many significant digits, always towards zero with `down`. */
export function roundToDigits(value: Numeric, digits: number, way: RoundingWay): Big {
  const number = settle(value)
  if (number.isZero()) return number
  const exponent = number.e - digits + 1
  return roundToStep(number, `1e${exponent}`, way)
}
