import type { Quantity } from './quantity.ts'
import type { Density, Output, Rate, RateForm, Strength } from './rate.ts'

/** A number and its unit as plain text that the parsers read back, for facts and for sentences. */
export interface Said {
  readonly value: string
  readonly unit: string
}

const counted = (of: string) => (of === 'product' ? '' : ` ${of}`)
const over = ({ value, unit }: Quantity) => (value === '1' ? unit : `${value} ${unit}`)

/** `oz wt/1000 ft2`, `lb ai/acre`, `fl oz/100 gal`, `% v/v`. */
export function rateUnitText(form: RateForm): string {
  if (form.kind === 'share') return `%${counted(form.of)} ${form.basis}`
  return `${form.unit}${counted(form.of)}/${over(form.per)}`
}

export function sayRate(rate: Rate): Said {
  return { value: rate.value, unit: rateUnitText(rate) }
}

/** `gal/1000 ft2`; also for a density, `lb/gal`. */
export function sayOutput({ value, unit, per }: Output | Density): Said {
  return { value, unit: `${unit}/${over(per)}` }
}

/** `lb ai/gal`, `% ai`. */
export function sayStrength(strength: Strength): Said {
  const tail = strength.kind === 'percent' ? '' : `/${over(strength.per)}`
  return { value: strength.value, unit: `${strength.unit}${counted(strength.of)}${tail}` }
}
