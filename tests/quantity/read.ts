import { parseQuantity } from '#src/quantity/parse.ts'
import {
  parseDensity,
  parseOutput,
  parseRate,
  parseRateForm,
  parseStrength,
} from '#src/quantity/parse-rate.ts'
import type { QuantityProblem } from '#src/quantity/problem.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import type { Result } from '#src/quantity/result.ts'
import type { Dimension, UnitOf } from '#src/quantity/units.ts'

/** The value, or a failing test that names the problem. */
export function sure<T, E>(read: Result<T, E>): T {
  if (read.ok) return read.value
  throw new Error(`Expected a value, got the problem ${JSON.stringify(read.error)}`)
}

/** The problem, or a failing test that names the value. */
export function problemOf<T>(read: Result<T, QuantityProblem>): QuantityProblem {
  if (!read.ok) return read.error
  throw new Error(`Expected a problem, got ${JSON.stringify(read.value)}`)
}

const read = <D extends Dimension>(expect: D, text: string): Quantity<UnitOf<D>> =>
  sure(parseQuantity(text, { expect }))

export const volume = (text: string) => read('volume', text)
export const mass = (text: string) => read('mass', text)
export const area = (text: string) => read('area', text)
export const rate = (text: string) => sure(parseRate(text))
export const form = (text: string) => sure(parseRateForm(text))
export const output = (text: string) => sure(parseOutput(text))
export const strength = (text: string) => sure(parseStrength(text))
export const density = (text: string) => sure(parseDensity(text))
