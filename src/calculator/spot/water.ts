import type { Big } from '#src/quantity/big.ts'
import { big, decimalText } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn, convertNumber, quantity } from '#src/quantity/quantity.ts'
import type { MassUnit } from '#src/quantity/units.ts'

/**
 * What a gallon of water weighs, in pounds. Published figures differ by 0.3 percent: 8.33 (UNHCR handbook), 8.34 (US
 * Army MD0173; Virginia DWR), 8.355 (Texas A&M ranch reference).
 */
export const publishedWaterLbPerGal = ['8.33', '8.34', '8.355'] as const
export const WATER_LB_PER_GAL = '8.34'

/** Weight of so much water. */
export function weighWater(
  water: Quantity,
  unit: MassUnit = 'lb',
  lbPerGal: string = WATER_LB_PER_GAL,
): Quantity<MassUnit> {
  const lb = amountIn(water, 'gal').times(big(lbPerGal))
  return quantity(convertNumber(lb, 'lb', unit), unit)
}

/** From the lowest to the highest published weight, in percent of the usual one. */
export function waterSpreadPercent(): string {
  const weights: Big[] = publishedWaterLbPerGal.map((one) => big(one))
  const ends = weights.map((one) => one.div(big(WATER_LB_PER_GAL)))
  const most = ends.reduce((a, b) => (a.gt(b) ? a : b))
  const least = ends.reduce((a, b) => (a.lt(b) ? a : b))
  return decimalText(most.minus(least).times(100))
}
