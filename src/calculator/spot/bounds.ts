import { compareNumbers } from '#src/quantity/big.ts'
import type { Output } from '#src/quantity/rate.ts'
import type { Finding } from '../worked.ts'
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
  return [finding('refusal', 'spot.not-above-zero', { what: { say: `spot.what.${what}` }, given })]
}

/** A percentage above zero and at most all of it. */
export function notPercent(what: Asked, value: string): Finding[] {
  const given = { value, unit: '%' }
  const found = notAboveZero(what, given)
  if (found.length > 0 || compareNumbers(value, 100) <= 0) return found
  return [finding('refusal', 'spot.above-hundred', { what: { say: `spot.what.${what}` }, given })]
}

export function outputDoubt(output: Output): Finding[] {
  return notAboveZero('output', { value: output.value, unit: `${output.unit}/${output.per.unit}` })
}
