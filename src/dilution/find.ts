import { dilute, liquidForSpray, powderForSpray } from '#src/calculator/spot/dilute.ts'
import { ppmOf, weightForPpm } from '#src/calculator/spot/ppm.ts'
import { waterSpreadPercent } from '#src/calculator/spot/water.ts'
import type { Calculated } from '#src/calculator/worked.ts'
import { blocked, finding, step, worked } from '#src/calculator/worked.ts'
import { big, decimalText } from '#src/quantity/big.ts'
import { amountIn, convertNumber, type Quantity, quantity } from '#src/quantity/quantity.ts'
import type { Strength } from '#src/quantity/rate.ts'
import { sayStrength } from '#src/quantity/said.ts'
import type { AmountUnit, MassUnit, VolumeUnit } from '#src/quantity/units.ts'

/** Product to add, and the rest of the spray where the two add up to it. */
export interface Portion {
  readonly product: Quantity<AmountUnit>
  readonly carrier?: Quantity<AmountUnit>
}

export interface Units {
  readonly mass: MassUnit
  readonly volume: VolumeUnit
}

type Liquid = Extract<Strength, { kind: 'mass-per-volume' }>

const weighed = () => step('dilution.water-weight', { spread: { value: waterSpreadPercent(), unit: '%' } })

/** A spray of so many percent from a liquid that is known by its weight of active ingredient. */
export function fromLiquid(
  spray: Quantity<VolumeUnit>,
  percent: string,
  strength: Liquid,
  { volume }: Units,
): Calculated<Portion> {
  const found = liquidForSpray(spray, percent, poundsPerGallon(strength), { unit: volume })
  return found.ok ? worked({ product: found.value }, [...found.working, weighed()]) : found
}

/** A spray of so many percent by weight from a powder. */
export function fromPowder(
  spray: Quantity<VolumeUnit>,
  percent: string,
  strengthPercent: string,
  { mass }: Units,
): Calculated<Portion> {
  const found = powderForSpray(spray, percent, strengthPercent, { unit: mass })
  return found.ok ? worked({ product: found.value }, [...found.working, weighed()]) : found
}

/** A weaker strength from a stronger one, both in the same measure. */
export function fromStronger<U extends AmountUnit>(
  amount: Quantity<U>,
  percent: string,
  strengthPercent: string,
): Calculated<Portion> {
  const found = dilute(amount, percent, strengthPercent)
  if (!found.ok) return found
  return worked({ product: found.value.concentrate, carrier: found.value.carrier }, found.working)
}

/** So many parts per million of active ingredient, as product where its strength is known. */
export function forPpm(
  water: Quantity<VolumeUnit>,
  ppm: string,
  strength: Strength | undefined,
  units: Units,
): Calculated<Portion> {
  const found = weightForPpm(ppm, water, units.mass)
  if (!found.ok || strength === undefined)
    return found.ok ? worked({ product: found.value }, found.working) : found
  const active = found.value
  if (big(strength.value).lte(0))
    return blocked(
      finding('refusal', 'spot.not-above-zero', {
        what: { say: 'spot.what.strength' },
        given: sayStrength(strength),
      }),
    )
  const product =
    strength.kind === 'percent'
      ? quantity(big(active.value).times(100).div(big(strength.value)), active.unit)
      : quantity(
          convertNumber(amountIn(active, 'lb').div(big(poundsPerGallon(strength))), 'gal', units.volume),
          units.volume,
        )
  return worked({ product }, [
    ...found.working,
    step('dilution.from-strength', { active, strength: sayStrength(strength), product }),
  ])
}

/** How many parts per million so much active ingredient makes. */
export function ppmMade(
  water: Quantity<VolumeUnit>,
  added: Quantity<MassUnit>,
  strength: Strength | undefined,
): Calculated<string> {
  if (strength?.kind !== 'percent') return ppmOf(added, water)
  const active = quantity(big(added.value).times(big(strength.value)).div(100), added.unit)
  return ppmOf(active, water)
}

function poundsPerGallon({ value, unit, per }: Liquid): string {
  return decimalText(amountIn({ value, unit }, 'lb').div(amountIn(per, 'gal')))
}
