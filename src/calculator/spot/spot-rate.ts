import { big, compareNumbers } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn, quantity } from '#src/quantity/quantity.ts'
import type { AreaRate, Output } from '#src/quantity/rate.ts'
import { areaRate } from '#src/quantity/rate.ts'
import { sayOutput, sayRate } from '#src/quantity/said.ts'
import type { AreaUnit, VolumeUnit } from '#src/quantity/units.ts'
import type { Calculated } from '../worked.ts'
import { blocked, finding, step, worked } from '../worked.ts'
import { notAboveZero, notPercent, outputDoubt } from './bounds.ts'

/**
 * The rate per area that a percent mix becomes (F40): a percentage fixes the strength only, so whoever sprays wetter
 * puts on more product.
 * @param percent of the finished mix by volume
 * @param form units of the result
 */
export function rateOfPercent(
  percent: string,
  output: Output,
  form: { readonly unit: VolumeUnit; readonly per: Quantity<AreaUnit> },
): Calculated<AreaRate> {
  const problems = [...notPercent('percent', percent), ...outputDoubt(output)]
  if (problems.length > 0) return blocked(...problems)
  const times = amountIn(form.per, output.per.unit).div(big(output.per.value))
  const mix = amountIn({ value: output.value, unit: output.unit }, form.unit).times(times)
  const rate = areaRate(mix.times(big(percent)).div(100), form.unit, form.per)
  const figures = { percent: { value: percent, unit: '%' }, output: sayOutput(output), rate: sayRate(rate) }
  return worked(rate, [step('spot.rate-of-percent', figures)])
}

/** Ground that one gallon of finished mix covers. */
export function groundPerGallon(output: Output, unit: AreaUnit = 'acre'): Calculated<Quantity<AreaUnit>> {
  const problems = outputDoubt(output)
  if (problems.length > 0) return blocked(...problems)
  const per = amountIn(output.per, unit)
  const ground = quantity(per.div(amountIn({ value: output.value, unit: output.unit }, 'gal')), unit)
  return worked(ground, [step('spot.gallon-covers', { output: sayOutput(output), ground })])
}

/** Part of an area that spots cover, as a check that a broadcast is not sold as spots. */
export function spotShare(spots: Quantity<AreaUnit>, area: Quantity<AreaUnit>): Calculated<string> {
  const problems = [...notAboveZero('amount', spots), ...notAboveZero('amount', area)]
  if (problems.length > 0) return blocked(...problems)
  const percent = amountIn(spots, area.unit).div(big(area.value)).times(100)
  if (compareNumbers(percent, 100) > 0)
    return blocked(finding('refusal', 'spot.more-than-area', { spots, area }))
  return worked(percent.toString(), [
    step('spot.share', { spots, area, share: { value: percent.toString(), unit: '%' } }),
  ])
}
