import type { Param } from '#src/conversation/text.ts'
import { parseQuantity } from '#src/quantity/parse.ts'
import type { RateOptions } from '#src/quantity/parse-rate.ts'
import { parseOutput, parseRate, parseStrength } from '#src/quantity/parse-rate.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import type { AreaRate, Output, Rate, Strength } from '#src/quantity/rate.ts'
import type { Result } from '#src/quantity/result.ts'
import { sayOutput, sayRate } from '#src/quantity/said.ts'
import type { Dimension, UnitOf } from '#src/quantity/units.ts'
import type { Form, LabelEntry } from './entry.ts'

/** How figures of a product are read: an ounce of a dry one is a weight, of a liquid one a volume. */
export function readingOf(form: Form): RateOptions {
  return { locale: 'en', ounce: form === 'dry' ? 'oz wt' : 'fl oz', percent: form === 'dry' ? 'w/w' : 'v/v' }
}

/**
 * A figure of a checked entry. Entries are checked before they are kept, so one that cannot be read here is a bug.
 * @throws RangeError when the figure cannot be read.
 */
function sure<T, E>(read: Result<T, E>, text: string): T {
  if (read.ok) return read.value
  throw new RangeError(
    `Cannot read the figure "${text}" of a label entry: entries are checked before they are kept`,
  )
}

/** A figure is read once: labels print the same ones over and over, and reading costs more than checking. */
function once<T>(read: (text: string) => T): (text: string) => T {
  const known = new Map<string, T>()
  return (text) => {
    const found = known.get(text)
    if (found !== undefined) return found
    const made = read(text)
    if (known.size >= MOST_KNOWN) known.clear()
    known.set(text, made)
    return made
  }
}
const MOST_KNOWN = 5_000

const rateIn: Readonly<Record<Form, (text: string) => Rate>> = {
  dry: once((text) => sure(parseRate(text, readingOf('dry')), text)),
  liquid: once((text) => sure(parseRate(text, readingOf('liquid')), text)),
}

export function rateOf({ form }: Pick<LabelEntry, 'form'>, text: string): Rate {
  return rateIn[form](text)
}

/** The rates of a limit that are per area; the others are checked where the output is known. */
export function areaRatesOf(entry: Pick<LabelEntry, 'form'>, texts: readonly string[]): readonly AreaRate[] {
  return texts.map((text) => rateOf(entry, text)).filter((rate) => rate.kind === 'area')
}

export function outputOf(text: string): Output {
  return sure(parseOutput(text, { locale: 'en' }), text)
}

export const strengthOf: (text: string) => Strength = once((text) =>
  sure(parseStrength(text, { locale: 'en' }), text),
)

export function measureOf<D extends Dimension>(text: string, expect: D): Quantity<UnitOf<D>> {
  return sure(parseQuantity(text, { expect, locale: 'en' }), text)
}

/** A rate as a parameter of a sentence. */
export function rateParam(rate: Rate): Param {
  return sayRate(rate)
}

/** An output as a parameter of a sentence. */
export function outputParam(output: Output): Param {
  return sayOutput(output)
}
