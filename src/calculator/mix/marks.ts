import { big, compareNumbers } from '#src/quantity/big.ts'
import { amountIn, compareQuantities, quantity } from '#src/quantity/quantity.ts'
import type { RoundingWay } from '#src/quantity/round.ts'
import { roundToStep } from '#src/quantity/round.ts'
import type { Volume } from './request.ts'

/**
 * A filling rounded to the marks of the tank, in the unit it was asked in. A brim-full tank needs no mark; less than
 * one mark becomes one.
 */
export function toMark(
  fill: Volume,
  mark: Volume | undefined,
  capacity: Volume | undefined,
  way: RoundingWay,
): Volume {
  if (mark === undefined || (capacity && compareQuantities(fill, capacity) === 0)) return fill
  const step = amountIn(mark, fill.unit)
  const rounded = roundToStep(fill.value, step, way)
  const marked = quantity(compareNumbers(rounded, 0) === 0 ? step : rounded, fill.unit)
  return capacity && compareQuantities(marked, capacity) > 0
    ? quantity(amountIn(capacity, fill.unit), fill.unit)
    : marked
}

/** The fullest that a tank can be read off: its capacity, which counts as a mark. */
export function hasRoomFor(volume: Volume, capacity: Volume | undefined): boolean {
  return capacity === undefined || compareQuantities(volume, capacity) <= 0
}

/** A volume as a bare number of milliliters. */
export function milliliters(volume: Volume) {
  return big(amountIn(volume, 'mL'))
}
