import type { Big } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { convertNumber, quantity } from '#src/quantity/quantity.ts'
import type { Rate, Strength } from '#src/quantity/rate.ts'
import { countsVolume, volumeRate } from '#src/quantity/rate.ts'
import type { Result } from '#src/quantity/result.ts'
import { fail, ok } from '#src/quantity/result.ts'
import type { AmountUnit } from '#src/quantity/units.ts'
import { systemOf } from '#src/quantity/units.ts'
import { convertMeasure, convertRate } from '../rate/convert.ts'
import type { Figures, RateProblem } from '../rate/figures.ts'
import type { Count } from '../rate/measure.ts'
import { measureOf } from '../rate/measure.ts'
import type { Volume } from './request.ts'

/** How strong a mix is: so many g or mL of product in one mL of mix. */
export interface MixStrength {
  readonly number: Big
  readonly count: Count
}

/** Is the product measured by volume or by weight when mixed at this rate? */
function countFor(rate: Rate, figures: Figures, count: Count | undefined): Count {
  if (count) return count
  if (rate.of === 'product') return countsVolume(rate) ? 'mL' : 'g'
  return isLiquidStrength(figures.strengths?.find((one) => one.of === rate.of)) ? 'mL' : 'g'
}

function isLiquidStrength(strength: Strength | undefined): boolean {
  return strength?.kind === 'mass-per-volume'
}

/** What a rate makes of the mix: F20 to F27 and F31, F32 in one, product per volume of finished mix. */
export function strengthOfMix(rate: Rate, figures: Figures, count?: Count): Result<MixStrength, RateProblem> {
  const wanted = countFor(rate, figures, count)
  const measure = convertMeasure(measureOf(rate), { of: 'product', count: wanted, base: 'mL' }, figures)
  return measure.ok ? ok({ number: measure.value.number, count: wanted }) : fail(measure.error)
}

/** The unit in which an amount of product is told for this rate: the rate's own where it has one. */
export function productUnitFor(rate: Rate, count: Count, fill: Volume): AmountUnit {
  if (rate.kind !== 'share' && rate.of === 'product' && countsVolume(rate) === (count === 'mL'))
    return rate.unit
  const isMetric = systemOf(rate.kind === 'share' ? fill.unit : rate.unit) === 'metric'
  if (count === 'mL') return isMetric ? 'mL' : 'fl oz'
  return isMetric ? 'g' : 'oz wt'
}

/** An amount of product, counted in g or mL, in the unit wanted. */
export function productAmount(amount: Big, count: Count, unit: AmountUnit): Quantity<AmountUnit> {
  return quantity(convertNumber(amount, count, unit), unit)
}

/**
 * The way back: the rate that a weighed or measured amount in this much mix really gives, in the form asked for.
 * It starts from the amount that will be measured, so that a slip on the way there shows.
 */
export function proveRate(
  amount: Quantity<AmountUnit>,
  mix: Volume,
  asked: Rate,
  figures: Figures,
): Result<Rate, RateProblem> {
  const proven = convertRate(volumeRate(amount.value, amount.unit, mix), asked, figures)
  return proven.ok ? ok(proven.value.rate) : proven
}
