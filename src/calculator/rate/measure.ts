import type { Big } from '#src/quantity/big.ts'
import { big } from '#src/quantity/big.ts'
import { amountIn, convertNumber } from '#src/quantity/quantity.ts'
import type { Counted, Density, Output, Rate, RateForm, Strength } from '#src/quantity/rate.ts'
import type { UnitId } from '#src/quantity/units.ts'
import { isVolumeUnit } from '#src/quantity/units.ts'

/** What an amount is counted in: grams of weight or milliliters of volume. */
export type Count = 'g' | 'mL'
/** What an amount is spread over: square meters of ground, milliliters of mix, grams of mix. */
export type Base = 'm2' | 'mL' | 'g'

/** A rate with its units taken off: so many g or mL of product, ai or ae over one m², mL or g. */
export interface Measure {
  readonly number: Big
  readonly of: Counted
  readonly count: Count
  readonly base: Base
}

export type MeasureForm = Omit<Measure, 'number'>

export function countOf(unit: UnitId): Count {
  return isVolumeUnit(unit) ? 'mL' : 'g'
}

export function measureFormOf(form: RateForm): MeasureForm {
  if (form.kind === 'share') {
    const unit = form.basis === 'v/v' ? 'mL' : 'g'
    return { of: form.of, count: unit, base: unit }
  }
  return { of: form.of, count: countOf(form.unit), base: form.kind === 'area' ? 'm2' : 'mL' }
}

/** How many g or mL over one m², mL or g one of this form is. */
function sizeOf(form: RateForm): Big {
  if (form.kind === 'share') return big('0.01')
  const amount = convertNumber(1, form.unit, countOf(form.unit))
  return amount.div(amountIn(form.per, form.kind === 'area' ? 'm2' : 'mL'))
}

export function measureOf(rate: Rate): Measure {
  return { ...measureFormOf(rate), number: big(rate.value).times(sizeOf(rate)) }
}

/** The bare number of a measure when it is expressed in a form of the same kind. */
export function numberIn(measure: Measure, form: RateForm): Big {
  return measure.number.div(sizeOf(form))
}

/** Milliliters of mix on one square meter. */
export function outputNumber(output: Output): Big {
  return amountIn({ value: output.value, unit: output.unit }, 'mL').div(amountIn(output.per, 'm2'))
}

/** Grams in one milliliter. */
export function densityNumber({
  value,
  unit,
  per,
}: Density | Extract<Strength, { kind: 'mass-per-volume' }>): Big {
  return amountIn({ value, unit }, 'g').div(amountIn(per, 'mL'))
}
