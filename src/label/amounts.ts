import { big, compareNumbers, decimalText } from '#src/quantity/big.ts'
import { convertNumber, isSameDimension } from '#src/quantity/quantity.ts'
import type { AreaRate, Output, Rate, Strength } from '#src/quantity/rate.ts'
import { areaRate } from '#src/quantity/rate.ts'
import type { AmountUnit, MassUnit } from '#src/quantity/units.ts'
import { isMassUnit, isVolumeUnit } from '#src/quantity/units.ts'

type PerArea = Pick<AreaRate, 'unit' | 'per'>

/** An amount per area in the unit of another one; null when one counts weight and the other volume. */
export function inUnitOf(rate: AreaRate, like: PerArea): AreaRate | null {
  if (!isSameDimension(rate.unit, like.unit)) return null
  const amount = convertNumber(rate.value, rate.unit, like.unit)
  const area = convertNumber(rate.per.value, rate.per.unit, like.per.unit)
  return areaRate(amount.times(like.per.value).div(area), like.unit, like.per, rate.of)
}

/** Is the number of one printed in the very unit of the other? `per 1,000 ft2` is one unit however it is written. */
export function isSameUnit(a: PerArea, b: PerArea): boolean {
  if (a.unit !== b.unit) return false
  return compareNumbers(convertNumber(a.per.value, a.per.unit, b.per.unit), b.per.value) === 0
}

/** What a strength in the mix becomes on the ground at an output; null when that cannot be told. */
export function onTheGround(rate: Rate, output: Output | undefined): AreaRate | null {
  if (rate.kind === 'area') return rate
  if (output === undefined) return null
  if (rate.kind === 'volume') {
    const mix = convertNumber(output.value, output.unit, rate.per.unit)
    return areaRate(big(rate.value).times(mix).div(rate.per.value), rate.unit, output.per, rate.of)
  }
  if (rate.basis !== 'v/v') return null
  return areaRate(big(rate.value).times(output.value).div(100), output.unit, output.per, rate.of)
}

/** Weight of active in one unit of product, as [factor, unit]; null without a density to bridge the two. */
function activeIn(unit: AmountUnit, strength: Strength): readonly [factor: string, unit: AmountUnit] | null {
  if (strength.kind === 'percent')
    return isMassUnit(unit) ? [decimalText(big(strength.value).div(100)), unit] : null
  if (!isVolumeUnit(unit)) return null
  const volume = convertNumber(1, unit, strength.per.unit)
  return [decimalText(volume.times(strength.value).div(strength.per.value)), strength.unit as MassUnit]
}

/** Product per area as active (ai or ae, as the strength says) per area; null when its form does not allow it. */
export function asActive(product: AreaRate, strength: Strength): AreaRate | null {
  const active = activeIn(product.unit, strength)
  if (active === null) return null
  return areaRate(big(product.value).times(active[0]), active[1], product.per, strength.of)
}

/** Active per area as product per area, in the wanted unit of product; null when that unit does not fit. */
export function asProduct(active: AreaRate, strength: Strength, unit: AmountUnit): AreaRate | null {
  const one = activeIn(unit, strength)
  if (one === null || !isSameDimension(active.unit, one[1])) return null
  return areaRate(convertNumber(active.value, active.unit, one[1]).div(one[0]), unit, active.per, 'product')
}

/** −1, 0 or 1; null when the two cannot be compared, as a weight with a volume. */
export function compareAreaRates(a: AreaRate, b: AreaRate): -1 | 0 | 1 | null {
  const same = inUnitOf(a, b)
  return same === null || a.of !== b.of ? null : compareNumbers(same.value, b.value)
}

/** Two strengths of the mix, per volume or as a share of the same kind; null when they are not of one kind. */
export function compareInTheMix(a: Rate, b: Rate): -1 | 0 | 1 | null {
  if (a.kind === 'share' && b.kind === 'share')
    return a.basis === b.basis ? compareNumbers(a.value, b.value) : null
  if (a.kind !== 'volume' || b.kind !== 'volume' || a.of !== b.of) return null
  if (!isSameDimension(a.unit, b.unit)) return null
  const amount = convertNumber(a.value, a.unit, b.unit).times(b.per.value)
  return compareNumbers(amount.div(convertNumber(a.per.value, a.per.unit, b.per.unit)), b.value)
}

/**
 * Of one limit printed in several units, the one to hold a rate against: the line in the unit that was asked for,
 * else the most generous (highest of a maximum, lowest of a minimum), because the others only differ from it by
 * rounding. Null when none can be compared.
 */
export function lineToCheck(
  rate: AreaRate,
  printed: readonly AreaRate[],
  generous: -1 | 1 = 1,
): AreaRate | null {
  const comparable = printed.filter((other) => compareAreaRates(rate, other) !== null)
  const same = comparable.find((other) => isSameUnit(rate, other))
  return same ?? extreme(comparable, generous)
}

/** Of several printed ends of one range, the lowest (`-1`) or highest (`1`). */
export function extreme(rates: readonly AreaRate[], way: -1 | 1): AreaRate | null {
  return rates.reduce<AreaRate | null>(
    (best, rate) => (best === null || compareAreaRates(rate, best) === way ? rate : best),
    null,
  )
}
