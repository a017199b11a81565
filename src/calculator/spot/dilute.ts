import { big, compareNumbers } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn, convertNumber, quantity } from '#src/quantity/quantity.ts'
import type { AmountUnit, MassUnit, VolumeUnit } from '#src/quantity/units.ts'
import type { Calculated, Finding } from '../worked.ts'
import { blocked, finding, step, worked } from '../worked.ts'
import { notAboveZero, notPercent } from './bounds.ts'
import { WATER_LB_PER_GAL, weighWater } from './water.ts'

export interface Dilution<U extends AmountUnit> {
  readonly concentrate: Quantity<U>
  /** Water, or dry carrier: what comes to the concentrate. Never the whole amount. */
  readonly carrier: Quantity<U>
}

/**
 * So much of a weaker strength from a stronger one (F29): US Army MD0173. Both strengths in the same measure, both
 * amounts by volume or both by weight.
 */
export function dilute<U extends AmountUnit>(
  amount: Quantity<U>,
  wantedPercent: string,
  strengthPercent: string,
): Calculated<Dilution<U>> {
  const problems = strengthProblems(amount, wantedPercent, strengthPercent)
  if (problems.length > 0) return blocked(...problems)
  const part = big(amount.value).times(big(wantedPercent)).div(big(strengthPercent))
  const concentrate = quantity(part, amount.unit)
  const carrier = quantity(big(amount.value).minus(part), amount.unit)
  const figures = {
    amount,
    wanted: percent(wantedPercent),
    strength: percent(strengthPercent),
    concentrate,
    carrier,
  }
  return worked({ concentrate, carrier }, [step('spot.dilute', figures)])
}

/**
 * Powder for a spray of so many percent of active ingredient by weight (F30): US Army MD0173.
 * @param lbPerGal weight of a gallon of water
 */
export function powderForSpray(
  spray: Quantity<VolumeUnit>,
  wantedPercent: string,
  strengthPercent: string,
  options: { readonly unit?: MassUnit; readonly lbPerGal?: string } = {},
): Calculated<Quantity<MassUnit>> {
  const problems = strengthProblems(spray, wantedPercent, strengthPercent)
  if (problems.length > 0) return blocked(...problems)
  const unit = options.unit ?? 'lb'
  const water = weighWater(spray, 'lb', options.lbPerGal)
  const lb = big(water.value).times(big(wantedPercent)).div(big(strengthPercent))
  const powder = quantity(convertNumber(lb, 'lb', unit), unit)
  const figures = { spray, water, wanted: percent(wantedPercent), strength: percent(strengthPercent), powder }
  return worked(powder, [step('spot.powder', figures)])
}

/**
 * Liquid for a spray of so many percent of active ingredient by weight, from a concentrate of so many pounds of active
 * ingredient a gallon. Published tables that assume 8 lb of water a gallon read 4 percent low.
 */
export function liquidForSpray(
  spray: Quantity<VolumeUnit>,
  wantedPercent: string,
  strengthLbPerGal: string,
  options: { readonly unit?: VolumeUnit; readonly lbPerGal?: string } = {},
): Calculated<Quantity<VolumeUnit>> {
  const strength = { value: strengthLbPerGal, unit: 'lb/gal' }
  const problems = [
    ...notAboveZero('amount', spray),
    ...notPercent('percent', wantedPercent),
    ...notAboveZero('strength', strength),
  ]
  if (problems.length > 0) return blocked(...problems)
  const unit = options.unit ?? 'gal'
  const water = weighWater(spray, 'lb', options.lbPerGal ?? WATER_LB_PER_GAL)
  const gallons = big(water.value).times(big(wantedPercent)).div(100).div(big(strengthLbPerGal))
  const liquid = quantity(convertNumber(gallons, 'gal', unit), unit)
  if (compareNumbers(gallons, amountIn(spray, 'gal')) > 0)
    return blocked(finding('refusal', 'spot.too-weak', { wanted: percent(wantedPercent), strength }))
  return worked(liquid, [
    step('spot.liquid', { spray, water, wanted: percent(wantedPercent), strength, liquid }),
  ])
}

const percent = (value: string) => ({ value, unit: '%' })

function strengthProblems(amount: Quantity, wanted: string, strength: string): Finding[] {
  const found = [
    ...notAboveZero('amount', amount),
    ...notPercent('percent', wanted),
    ...notPercent('strength', strength),
  ]
  if (found.length > 0 || compareNumbers(wanted, strength) <= 0) return found
  return [finding('refusal', 'spot.too-weak', { wanted: percent(wanted), strength: percent(strength) })]
}
