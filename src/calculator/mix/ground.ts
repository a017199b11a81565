import { big, compareNumbers } from '#src/quantity/big.ts'
import { amountIn, compareQuantities, convertNumber, quantity, subtract } from '#src/quantity/quantity.ts'
import type { AreaRate, Output, Rate, VolumeRate } from '#src/quantity/rate.ts'
import type { AreaUnit } from '#src/quantity/units.ts'
import { systemOf } from '#src/quantity/units.ts'
import { convertRate } from '../rate/convert.ts'
import type { Figures } from '../rate/figures.ts'
import { outputNumber } from '../rate/measure.ts'
import type { OutputTrap } from './outcome.ts'
import type { Area, Volume } from './request.ts'

/** Outputs that differ by less than a careful calibration can tell are the same. Common practice, no source. */
const SAME_OUTPUT_WITHIN = '0.005'

/** Square feet and square meters, not thousands of them, are what areas are told in. */
const AREA_TOLD_IN: Partial<Record<AreaUnit, AreaUnit>> = { '1000 ft2': 'ft2', '100 m2': 'm2' }

/** The ground that a volume of mix covers (F20). */
export function areaCovered(mix: Volume, output: Output): Area {
  const unit = AREA_TOLD_IN[output.per.unit] ?? output.per.unit
  return quantity(convertNumber(amountIn(mix, 'mL').div(outputNumber(output)), 'm2', unit), unit)
}

/** The mix that a ground needs (F23), in the unit wanted. */
export function mixFor(ground: Area, output: Output, unit: Volume['unit']): Volume {
  return quantity(convertNumber(amountIn(ground, 'm2').times(outputNumber(output)), 'mL', unit), unit)
}

/** What will still be in the tank when the ground is done; undefined when nothing will. */
export function leftoverOf(
  mix: Volume,
  ground: Area | undefined,
  output: Output | undefined,
): Volume | undefined {
  if (!ground || !output) return undefined
  const needed = mixFor(ground, output, mix.unit)
  return compareQuantities(mix, needed) > 0 ? subtract(mix, needed) : undefined
}

const SHARE_TOLD_IN = { 'v/v': { us: 'fl oz', metric: 'mL' }, 'w/w': { us: 'oz wt', metric: 'g' } } as const

/** What a strength in the mix becomes on the ground (F40): product per area at this output. */
export function rateOnGround(rate: Rate, figures: Figures): AreaRate | undefined {
  if (rate.kind === 'area' || !figures.output) return undefined
  const isMetric = systemOf(figures.output.unit) === 'metric'
  const unit = rate.kind === 'share' ? SHARE_TOLD_IN[rate.basis][isMetric ? 'metric' : 'us'] : rate.unit
  const form = { kind: 'area', unit, of: rate.of, per: figures.output.per } as const
  const ground = convertRate(rate, form, figures)
  return ground.ok && ground.value.rate.kind === 'area' ? ground.value.rate : undefined
}

/**
 * The strength per gallon (or liter) that a rate per area becomes at this output, and at the output that it is
 * usually thought for. They differ for who puts out more or less.
 */
export function findTrap(
  rate: Rate,
  output: Output | undefined,
  usual: Output | undefined,
  figures: Figures,
): OutputTrap | undefined {
  if (rate.kind !== 'area' || !output || !usual) return undefined
  const share = outputNumber(output).div(outputNumber(usual)).minus(1).abs()
  if (compareNumbers(share, SAME_OUTPUT_WITHIN) < 0) return undefined
  const form = {
    kind: 'volume',
    unit: rate.unit,
    of: rate.of,
    per: { value: '1', unit: output.unit },
  } as const
  const [yours, thought] = [output, usual].map((one) => convertRate(rate, form, { ...figures, output: one }))
  if (!yours?.ok || !thought?.ok) return undefined
  return { yours: yours.value.rate as VolumeRate, usual: thought.value.rate as VolumeRate }
}

/** Applied over asked, as a bare number. */
export function shareOf(applied: Rate, asked: Rate) {
  return big(applied.value).div(asked.value)
}
