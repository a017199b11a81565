import fc from 'fast-check'
import { decimalText } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import type { Output, Rate, Strength } from '#src/quantity/rate.ts'
import { areaRate, shareRate, volumeRate } from '#src/quantity/rate.ts'
import type { AreaUnit, UnitId, VolumeUnit } from '#src/quantity/units.ts'
import { amountUnits, areaUnits, dimensionOf, massUnits, unitIds, volumeUnits } from '#src/quantity/units.ts'

/** A number above zero with one to six digits, from a millionth to a million. */
export const values = fc
  .tuple(fc.integer({ min: 1, max: 999_999 }), fc.integer({ min: 0, max: 6 }))
  .map(([digits, decimals]) => decimalText(`${digits}e-${decimals}`))

/** A share of a whole in percent, above zero. */
export const percents = fc
  .integer({ min: 1, max: 10_000 })
  .map((hundredths) => decimalText(`${hundredths}e-2`))

/** Units in which an amount is printed as it stands. */
const plainUnits = unitIds.filter((id) => id !== '1000 ft2' && id !== '100 m2')

export const quantities: fc.Arbitrary<Quantity> = fc.record({
  value: values,
  unit: fc.constantFrom(...plainUnits),
})

export const unitPairs: fc.Arbitrary<readonly [UnitId, UnitId]> = fc
  .tuple(fc.constantFrom(...unitIds), fc.nat())
  .map(([from, pick]) => {
    const alike = unitIds.filter((id) => dimensionOf(id) === dimensionOf(from))
    return [from, alike[pick % alike.length] ?? from] as const
  })

const areaBases: fc.Arbitrary<Quantity<AreaUnit>> = fc.oneof(
  fc.record({ value: fc.constant('1'), unit: fc.constantFrom(...areaUnits) }),
  fc.constantFrom<Quantity<AreaUnit>>(
    { value: '250', unit: 'ft2' },
    { value: '6000', unit: 'ft2' },
    { value: '0.25', unit: 'acre' },
  ),
)
const volumeBases: fc.Arbitrary<Quantity<VolumeUnit>> = fc.oneof(
  fc.record({ value: fc.constant('1'), unit: fc.constantFrom(...volumeUnits) }),
  fc.constant<Quantity<VolumeUnit>>({ value: '100', unit: 'gal' }),
)
const counted = fc.constantFrom('product' as const, 'ai' as const, 'ae' as const)

export const areaRates = fc
  .tuple(values, fc.constantFrom(...amountUnits), areaBases, counted)
  .map(([value, unit, per, of]) => areaRate(value, unit, per, of))

export const rates: fc.Arbitrary<Rate> = fc.oneof(
  areaRates,
  fc
    .tuple(values, fc.constantFrom(...amountUnits), volumeBases, counted)
    .map(([value, unit, per, of]) => volumeRate(value, unit, per, of)),
  fc
    .tuple(percents, fc.constantFrom('v/v' as const, 'w/w' as const))
    .map(([value, basis]) => shareRate(value, basis)),
)

export const outputs: fc.Arbitrary<Output> = fc.record({
  value: values,
  unit: fc.constantFrom(...volumeUnits),
  per: areaBases,
})

export const strengths: fc.Arbitrary<Strength> = fc.oneof(
  fc
    .tuple(values, fc.constantFrom(...massUnits), fc.constantFrom('ai' as const, 'ae' as const), volumeBases)
    .map(([value, unit, of, per]) => ({ kind: 'mass-per-volume' as const, value, unit, of, per })),
  fc
    .tuple(percents, fc.constantFrom('ai' as const, 'ae' as const))
    .map(([value, of]) => ({ kind: 'percent' as const, value, unit: '%' as const, of })),
)
