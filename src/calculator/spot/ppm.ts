import { big } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn, convertNumber, quantity } from '#src/quantity/quantity.ts'
import type { MassUnit } from '#src/quantity/units.ts'
import type { Calculated } from '../worked.ts'
import { blocked, step, worked } from '../worked.ts'
import { notAboveZero } from './bounds.ts'

/**
 * Weight that brings so much water to so many parts per million (F35): one ppm is one milligram in a liter of water.
 * Texas Parks & Wildlife and Virginia DWR give 2.7 lb per acre-foot and 0.0038 g per gallon.
 */
export function weightForPpm(
  ppm: string,
  water: Quantity,
  unit: MassUnit = 'g',
): Calculated<Quantity<MassUnit>> {
  const asked = { value: ppm, unit: 'ppm' }
  const problems = [...notAboveZero('ppm', asked), ...notAboveZero('amount', water)]
  if (problems.length > 0) return blocked(...problems)
  const milligrams = big(ppm).times(amountIn(water, 'L'))
  const weight = quantity(convertNumber(milligrams, 'mg', unit), unit)
  return worked(weight, [step('spot.ppm', { ppm: asked, water, weight })])
}

/** How many parts per million so much weight makes of so much water. */
export function ppmOf(weight: Quantity<MassUnit>, water: Quantity): Calculated<string> {
  const problems = [...notAboveZero('amount', weight), ...notAboveZero('amount', water)]
  if (problems.length > 0) return blocked(...problems)
  const value = quantity(amountIn(weight, 'mg').div(amountIn(water, 'L')), 'mg').value
  return worked(value, [step('spot.ppm', { ppm: { value, unit: 'ppm' }, water, weight })])
}

/** An acre of water one foot deep: 43,560 cubic feet, exactly. */
export const ACRE_FOOT: Quantity<'L'> = quantity(big('43560').times('28.316846592'), 'L')
