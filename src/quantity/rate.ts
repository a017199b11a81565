import { z } from 'zod'
import type { Big, Numeric } from './big.ts'
import { big, decimalText, isDecimalText } from './big.ts'
import type { Quantity } from './quantity.ts'
import { amountIn } from './quantity.ts'
import type { AmountUnit, AreaUnit, UnitId, VolumeUnit } from './units.ts'
import { amountUnits, areaUnits, isVolumeUnit, massUnits, unitIds, volumeUnits } from './units.ts'

/** A number that matters, as canonical decimal text: `0.113`, never `.113`, `0.1130` or `1.13e-1`. */
export const Decimal = z
  .string()
  .max(80)
  .refine(isDecimalText, { message: 'must be a plain decimal number such as 0.113' })

/** The schema of a stored or handed-over quantity in one of the given units. */
export function quantityOf<const U extends UnitId>(ids: readonly [U, ...U[]]) {
  return z.strictObject({ value: Decimal, unit: z.enum(ids) })
}

export const AnyQuantity = quantityOf(unitIds)

/** What is counted: the product as it comes, its active ingredient, or its acid equivalent. */
export const Counted = z.enum(['product', 'ai', 'ae'])
export type Counted = z.infer<typeof Counted>

/** So much per area: `3 pt/acre`, `2 lb ai/acre`, `50 lb per 6000 ft2`. */
export const AreaRate = z.strictObject({
  kind: z.literal('area'),
  value: Decimal,
  unit: z.enum(amountUnits),
  of: Counted,
  per: quantityOf(areaUnits),
})
export type AreaRate = z.infer<typeof AreaRate>

/** So much per volume of finished mix: `2 lb/100 gal`, `1.28 fl oz/gal`. */
export const VolumeRate = z.strictObject({
  kind: z.literal('volume'),
  value: Decimal,
  unit: z.enum(amountUnits),
  of: Counted,
  per: quantityOf(volumeUnits),
})
export type VolumeRate = z.infer<typeof VolumeRate>

/** So many percent of the finished mix, by volume or by weight: `0.25 % v/v`. */
export const ShareRate = z.strictObject({
  kind: z.literal('share'),
  value: Decimal,
  unit: z.literal('%'),
  of: Counted,
  basis: z.enum(['v/v', 'w/w']),
})
export type ShareRate = z.infer<typeof ShareRate>

export const Rate = z.discriminatedUnion('kind', [AreaRate, VolumeRate, ShareRate])
export type Rate = z.infer<typeof Rate>

type WithoutValue<R> = R extends Rate ? Omit<R, 'value'> : never
/** How a rate is expressed, without its number: what one converts to. */
export type RateForm = WithoutValue<Rate>

/** How much finished mix goes on an area: `1 gal/1000 ft2`, `25 gal/acre`. */
export const Output = z.strictObject({
  value: Decimal,
  unit: z.enum(volumeUnits),
  per: quantityOf(areaUnits),
})
export type Output = z.infer<typeof Output>

/** How much active ingredient or acid equivalent the product holds: `6.7 lb ai/gal`, `480 g ai/L`. */
export const MassStrength = z.strictObject({
  kind: z.literal('mass-per-volume'),
  value: Decimal,
  unit: z.enum(massUnits),
  of: z.enum(['ai', 'ae']),
  per: quantityOf(volumeUnits),
})

/** The same as a share of the product's weight: `80 % ai`. */
export const ShareStrength = z.strictObject({
  kind: z.literal('percent'),
  value: Decimal,
  unit: z.literal('%'),
  of: z.enum(['ai', 'ae']),
})
export const Strength = z.discriminatedUnion('kind', [MassStrength, ShareStrength])
export type Strength = z.infer<typeof Strength>

/** What one volume of a liquid weighs: `8.34 lb/gal`. */
export const Density = z.strictObject({
  value: Decimal,
  unit: z.enum(massUnits),
  per: quantityOf(volumeUnits),
})
export type Density = z.infer<typeof Density>

export function areaRate(
  value: Numeric,
  unit: AmountUnit,
  per: Quantity<AreaUnit>,
  of: Counted = 'product',
): AreaRate {
  return { kind: 'area', value: decimalText(value), unit, of, per }
}

export function volumeRate(
  value: Numeric,
  unit: AmountUnit,
  per: Quantity<VolumeUnit>,
  of: Counted = 'product',
): VolumeRate {
  return { kind: 'volume', value: decimalText(value), unit, of, per }
}

export function shareRate(value: Numeric, basis: ShareRate['basis'] = 'v/v'): ShareRate {
  return { kind: 'share', value: decimalText(value), unit: '%', of: 'product', basis }
}

export function formOf(rate: Rate): RateForm {
  const { value: _, ...form } = rate
  return form
}

export function withValue(form: RateForm, value: Numeric): Rate {
  return { ...form, value: decimalText(value) } as Rate
}

/** Are two rates printed in the very same unit, so that their numbers can be compared as they stand? */
export function isSameForm(a: RateForm, b: RateForm): boolean {
  if (a.kind !== b.kind || a.unit !== b.unit || a.of !== b.of) return false
  if (a.kind === 'share' || b.kind === 'share')
    return a.kind === 'share' && b.kind === 'share' && a.basis === b.basis
  return a.per.unit === b.per.unit && a.per.value === b.per.value
}

/** Does the rate count a volume of product (true) or a weight (false)? */
export function countsVolume(rate: RateForm): boolean {
  return rate.kind === 'share' ? rate.basis === 'v/v' : isVolumeUnit(rate.unit)
}

/** An output as a bare number of another output's unit. */
export function outputIn(output: Output, like: Pick<Output, 'unit' | 'per'>): Big {
  const perArea = amountIn({ value: output.value, unit: output.unit }, like.unit).div(
    amountIn(output.per, like.per.unit),
  )
  return perArea.times(big(like.per.value))
}
