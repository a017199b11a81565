import { compareNumbers } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import type { Output } from '#src/quantity/rate.ts'
import type { Figure, Finding } from '../worked.ts'
import { finding } from '../worked.ts'

/** Names of what these calculations ask for; their sentences are `spot.what.<name>`. */
export type Asked =
  | 'amount'
  | 'band'
  | 'row'
  | 'percent'
  | 'strength'
  | 'ppm'
  | 'output'
  | 'rate'
  | 'hardness'

export function notAboveZero(
  what: Asked,
  given: { readonly value: string; readonly unit: string },
): Finding[] {
  if (compareNumbers(given.value, 0) > 0) return []
  return [finding('refusal', 'calibrate.not-above-zero', { what: { say: `spot.what.${what}` }, given })]
}

/** A percentage above zero and at most all of it. */
export function notPercent(what: Asked, value: string): Finding[] {
  const given = { value, unit: '%' }
  const found = notAboveZero(what, given)
  if (found.length > 0 || compareNumbers(value, 100) <= 0) return found
  return [finding('refusal', 'spot.above-hundred', { what: { say: `spot.what.${what}` }, given })]
}

/** A rate, an output or a strength as it stands in a sentence: `3 lb/acre`. */
export function told(one: { readonly value: string; readonly unit: string; readonly per: Quantity }): Figure {
  const per = one.per.value === '1' ? one.per.unit : `${one.per.value} ${one.per.unit}`
  return { value: one.value, unit: `${one.unit}/${per}` }
}

export function outputDoubt(output: Output): Finding[] {
  return notAboveZero('output', { value: output.value, unit: `${output.unit}/${output.per.unit}` })
}
