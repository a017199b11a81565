import { parseQuantity, type QuantityOptions, type ReadingOptions } from '#src/quantity/parse.ts'
import {
  parseDensity,
  parseOutput,
  parseRate,
  parseRateForm,
  parseStrength,
} from '#src/quantity/parse-rate.ts'
import type { QuantityProblem } from '#src/quantity/problem.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import type { Density, Output, Rate, RateForm, Strength } from '#src/quantity/rate.ts'
import type { Result } from '#src/quantity/result.ts'
import type { Dimension, UnitOf } from '#src/quantity/units.ts'
import { say, type Text } from './text.ts'
import { quantityTrouble } from './trouble.ts'

/** Reads the options of one request, and keeps every problem, so that all of them are told at once. */
export interface Reader {
  readonly problems: readonly Text[]
  quantity<D extends Dimension>(
    option: string,
    text: string | undefined,
    options: QuantityOptions<D>,
  ): Quantity<UnitOf<D>> | undefined
  rate(option: string, text: string | undefined, options?: ReadingOptions): Rate | undefined
  rateForm(option: string, text: string | undefined): RateForm | undefined
  output(option: string, text: string | undefined): Output | undefined
  strength(option: string, text: string | undefined): Strength | undefined
  density(option: string, text: string | undefined): Density | undefined
  refuse(option: string, problem: Text): void
}

/** More than any sprayer puts out on purpose; a slip of the finger, not a setting. */
const MOST_OUTPUT = {
  value: '100',
  unit: 'gal',
  per: { value: '1000', unit: 'ft2' },
} as const

export function reader(language: string): Reader {
  const locale = language.startsWith('es') ? 'es' : 'en'
  const problems: Text[] = []
  const take = <T>(option: string, read: Result<T, QuantityProblem> | undefined): T | undefined => {
    if (read === undefined) return undefined
    if (read.ok) return read.value
    problems.push(say('desk.option-problem', { option, problem: quantityTrouble(read.error) }))
    return undefined
  }
  const given = <T>(text: string | undefined, parse: (text: string) => T): T | undefined =>
    text === undefined ? undefined : parse(text)

  return {
    problems,
    quantity: (option, text, options) =>
      take(
        option,
        given(text, (one) => parseQuantity(one, { locale, ...options })),
      ),
    rate: (option, text, options) =>
      take(
        option,
        given(text, (one) => parseRate(one, { locale, ...options })),
      ),
    rateForm: (option, text) =>
      take(
        option,
        given(text, (one) => parseRateForm(one, { locale })),
      ),
    output: (option, text) =>
      take(
        option,
        given(text, (one) => parseOutput(one, { locale, limit: MOST_OUTPUT })),
      ),
    strength: (option, text) =>
      take(
        option,
        given(text, (one) => parseStrength(one, { locale })),
      ),
    density: (option, text) =>
      take(
        option,
        given(text, (one) => parseDensity(one, { locale })),
      ),
    refuse: (option, problem) => {
      problems.push(say('desk.option-problem', { option, problem }))
    },
  }
}
