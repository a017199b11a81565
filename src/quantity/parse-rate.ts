import { big } from './big.ts'
import { PER } from './find-unit.ts'
import { readNumber } from './number.ts'
import type { ReadingOptions, TermRules } from './parse.ts'
import { readAmount, readUnit } from './parse.ts'
import { printOutput } from './print.ts'
import type { Expected, QuantityProblem } from './problem.ts'
import type { Quantity } from './quantity.ts'
import { quantity } from './quantity.ts'
import type { Counted, Density, Output, Rate, RateForm, ShareRate, Strength } from './rate.ts'
import { formOf, outputIn } from './rate.ts'
import type { Result } from './result.ts'
import { fail, ok } from './result.ts'
import { openText, quote } from './text.ts'
import type { AmountUnit, Dimension, UnitId } from './units.ts'
import { isAreaUnit, isMassUnit, isVolumeUnit } from './units.ts'

/** How a typed rate is to be read. */
export type RateOptions = ReadingOptions

export interface OutputOptions extends ReadingOptions {
  /** More than this is absurd here. */
  readonly limit?: Output
}

const AI = /(?:^|\s)(?:of )?(?:a\.?i\.?|i\.?a\.?|active(?: ingredient)?|ingrediente activo)$/i
const AE = /(?:^|\s)(?:of )?(?:a\.?e\.?|e\.?a\.?|acid(?: equivalent)?|equivalente acido)$/i
const PRODUCT = /(?:^|\s)(?:of |de )?(?:product|prod|producto|formulation)$/i

const BY_VOLUME =
  /^(?:v\/v|vv|vol\/vol|vol|by vol(?:ume)?|volume\/volume|volume|v|(?:por|en) volumen)(?: solution| solucion)?$/i
const BY_WEIGHT =
  /^(?:w\/w|ww|wt\/wt|wt|by w(?:eigh)?t|weight\/weight|weight|p\/p|m\/m|(?:por|en) peso)(?: solution| solucion)?$/i
const BARE_SHARE = /^(?:solution|solucion|of (?:the )?(?:spray )?mix|mix|de la mezcla)?$/i
const PERCENT = /^(?:%|percent|per cent|pct|por ciento|por cien)\s*/i

const AMOUNTS: readonly Dimension[] = ['volume', 'mass']
const BASES: readonly Dimension[] = ['area', 'volume']

/** @internal A text cut into what is counted and what it is counted over. */
interface Split {
  readonly amount: string
  readonly of: Counted
  readonly base: string
}

/**
 * Reads a rate: `0.113 oz wt/1000 ft2`, `3 pt per acre`, `3 pt/A`, `50 lb per 6000 ft2`, `2 lb ai/acre`,
 * `2 lb/100 gal`, `0.25 % v/v`, `2,5 L/ha`.
 */
export function parseRate(text: string, options: RateOptions = {}): Result<Rate, QuantityProblem> {
  const opened = openRate(text, 'rate')
  if (!opened.ok) return opened
  const rules = rulesFor('rate', AMOUNTS, text, options)
  const share = readSharePart(opened.value, rules, options)
  const read = share ?? readPlainRate(opened.value, rules)
  return read.ok && big(read.value.value).isZero() ? fail({ kind: 'zero', text: quote(text) }) : read
}

/** Reads how a rate is to be expressed: `fl oz/1000 ft2`, `pt/acre`, `lb ai/acre`, `% v/v`, `oz wt/100 gal`. */
export function parseRateForm(text: string, options: ReadingOptions = {}): Result<RateForm, QuantityProblem> {
  const opened = openRate(text, 'rate-form')
  if (!opened.ok) return opened
  if (/^[+-]?[.,]?\d/.test(opened.value))
    return fail({ kind: 'trailing', text: quote(text), rest: opened.value.split(' ')[0] ?? '' })
  const rules = rulesFor('rate-form', AMOUNTS, text, options)
  const withOne = `1 ${opened.value}`
  const read = readSharePart(withOne, rules, options) ?? readPlainRate(withOne, rules)
  return read.ok ? ok(formOf(read.value)) : read
}

/** Reads what a sprayer puts out: `1 gal/1000 ft2`, `25 gal/acre`, `25 GPA`, `400 L/ha`, `1 gal per 250 ft2`. */
export function parseOutput(text: string, options: OutputOptions = {}): Result<Output, QuantityProblem> {
  const ratio = parseRatio(text, 'output', ['volume'], ['area'], options)
  if (!ratio.ok) return ratio
  const { amount, base } = ratio.value
  if (!isVolumeUnit(amount.unit) || !isAreaUnit(base.unit) || ratio.value.of !== 'product')
    return fail({ kind: 'wrong-dimension', text: quote(text), expected: 'output' })
  const output: Output = {
    value: amount.value,
    unit: amount.unit,
    per: { value: base.value, unit: base.unit },
  }
  if (options.limit && outputIn(output, options.limit).gt(options.limit.value))
    return fail({
      kind: 'absurd',
      text: quote(text),
      limit: printOutput(options.limit, { locale: options.locale ?? 'en' }),
    })
  return ok(output)
}

/** Reads what a product holds: `6.7 lb ai/gal`, `480 g/L`, `80 % ai`, `41 % ae`. Nothing said means ai. */
export function parseStrength(text: string, options: ReadingOptions = {}): Result<Strength, QuantityProblem> {
  const percent = openRate(text, 'strength')
  if (!percent.ok) return percent
  const share = readPercentStrength(percent.value, text, options)
  if (share) return share
  const ratio = parseRatio(text, 'strength', ['mass'], ['volume'], options)
  if (!ratio.ok) return ratio
  const { amount, base, of } = ratio.value
  if (!isMassUnit(amount.unit) || !isVolumeUnit(base.unit))
    return fail({ kind: 'wrong-dimension', text: quote(text), expected: 'strength' })
  const per = { value: base.value, unit: base.unit }
  return ok({
    kind: 'mass-per-volume',
    value: amount.value,
    unit: amount.unit,
    of: of === 'ae' ? 'ae' : 'ai',
    per,
  })
}

/** Reads what one volume of a liquid weighs: `8.34 lb/gal`, `1.05 kg/L`. */
export function parseDensity(text: string, options: ReadingOptions = {}): Result<Density, QuantityProblem> {
  const ratio = parseRatio(text, 'density', ['mass'], ['volume'], options)
  if (!ratio.ok) return ratio
  const { amount, base, of } = ratio.value
  if (!isMassUnit(amount.unit) || !isVolumeUnit(base.unit) || of !== 'product')
    return fail({ kind: 'wrong-dimension', text: quote(text), expected: 'density' })
  return ok({ value: amount.value, unit: amount.unit, per: { value: base.value, unit: base.unit } })
}

/** `80 %`, `80 % ai`, `41 % ae w/w`, or undefined when the text is no percentage. */
function readPercentStrength(
  text: string,
  typed: string,
  options: ReadingOptions,
): Result<Strength, QuantityProblem> | undefined {
  const number = readNumber(text, { locale: options.locale ?? 'en', expected: 'strength' })
  if (!number.ok) return number
  const percent = PERCENT.exec(number.value.rest)
  if (!percent) return undefined
  const words = number.value.rest.slice(percent[0].length).trim()
  const counted = countedIn(words)
  const rest = counted.text.trim()
  if (rest !== '' && !BY_WEIGHT.test(rest))
    return fail({ kind: 'trailing', text: quote(typed), rest: quote(rest) })
  if (big(number.value.value).isZero()) return fail({ kind: 'zero', text: quote(typed) })
  if (big(number.value.value).gt(100)) return fail({ kind: 'absurd', text: quote(typed), limit: '100 %' })
  return ok({ kind: 'percent', value: number.value.value, unit: '%', of: counted.of === 'ae' ? 'ae' : 'ai' })
}

function rulesFor(
  expected: Expected,
  dimensions: readonly Dimension[],
  typed: string,
  options: ReadingOptions,
): TermRules {
  return { locale: options.locale ?? 'en', ounce: options.ounce, expected, dimensions, typed }
}

/** The first checks, and the trade's short words for gallons per acre written out. */
function openRate(text: string, expected: Expected): Result<string, QuantityProblem> {
  const opened = openText(text, expected)
  return opened.ok ? ok(opened.value.replace(/\bGPA\b/i, 'gal/acre')) : opened
}

/** A percentage with its basis, or undefined when the text is no percentage. */
function readSharePart(
  text: string,
  rules: TermRules,
  options: ReadingOptions,
): Result<Rate, QuantityProblem> | undefined {
  const number = readNumber(text, { locale: rules.locale ?? 'en', expected: rules.expected })
  if (!number.ok) return number
  const percent = PERCENT.exec(number.value.rest)
  if (!percent) return undefined
  const words = number.value.rest.slice(percent[0].length).replace(PRODUCT, '').trim()
  const basis = BY_VOLUME.test(words) ? 'v/v' : BY_WEIGHT.test(words) ? 'w/w' : undefined
  if (basis) return shareOrAbsurd(number.value.value, basis, rules)
  if (BARE_SHARE.test(words)) {
    if (options.percent) return shareOrAbsurd(number.value.value, options.percent, rules)
    return fail({ kind: 'ambiguous-percent', text: quote(rules.typed), value: number.value.value })
  }
  if (AI.test(words) || AE.test(words))
    return fail({ kind: 'wrong-dimension', text: quote(rules.typed), expected: rules.expected })
  return fail({ kind: 'trailing', text: quote(rules.typed), rest: quote(words) })
}

function shareOrAbsurd(
  value: string,
  basis: ShareRate['basis'],
  rules: TermRules,
): Result<Rate, QuantityProblem> {
  if (big(value).gt(100)) return fail({ kind: 'absurd', text: quote(rules.typed), limit: '100 %' })
  return ok({ kind: 'share', value, unit: '%', of: 'product', basis })
}

function readPlainRate(text: string, rules: TermRules): Result<Rate, QuantityProblem> {
  const read = readRatio(text, rules, BASES)
  if (!read.ok) return read
  const { amount, base, of } = read.value
  const unit = amount.unit as AmountUnit
  if (isAreaUnit(base.unit))
    return ok({ kind: 'area', value: amount.value, unit, of, per: { value: base.value, unit: base.unit } })
  if (isVolumeUnit(base.unit))
    return ok({ kind: 'volume', value: amount.value, unit, of, per: { value: base.value, unit: base.unit } })
  return fail({ kind: 'wrong-dimension', text: quote(rules.typed), expected: rules.expected })
}

interface ReadRatio {
  readonly amount: Quantity
  readonly of: Counted
  readonly base: Quantity
}

function parseRatio(
  text: string,
  expected: Expected,
  above: readonly Dimension[],
  below: readonly Dimension[],
  options: ReadingOptions,
): Result<ReadRatio, QuantityProblem> {
  const opened = openRate(text, expected)
  if (!opened.ok) return opened
  const read = readRatio(opened.value, rulesFor(expected, above, text, options), below)
  if (!read.ok) return read
  if (big(read.value.amount.value).isZero()) return fail({ kind: 'zero', text: quote(text) })
  return read
}

function readRatio(
  text: string,
  rules: TermRules,
  below: readonly Dimension[],
): Result<ReadRatio, QuantityProblem> {
  const split = splitRate(text, rules)
  if (!split.ok) return split
  const amount = readAmount(split.value.amount, rules)
  if (!amount.ok) return amount
  const base = readBase(split.value.base, { ...rules, dimensions: below })
  if (!base.ok) return base
  return ok({ amount: amount.value, of: split.value.of, base: base.value })
}

/** Cuts behind the number, so that the stroke of `1/2 gal/acre` is left alone. */
function splitRate(text: string, rules: TermRules): Result<Split, QuantityProblem> {
  const number = readNumber(text, { locale: rules.locale ?? 'en', expected: rules.expected })
  if (!number.ok) return number
  const start = text.length - number.value.rest.length
  const cut = PER.exec(number.value.rest)
  if (!cut) return fail({ kind: 'no-per', text: quote(rules.typed) })
  const amount = countedIn(text.slice(0, start + cut.index))
  const base = countedIn(number.value.rest.slice(cut.index + cut[0].length))
  const of = amount.of === 'product' ? base.of : amount.of
  return ok({ amount: amount.text, of, base: base.text })
}

function countedIn(text: string): { readonly text: string; readonly of: Counted } {
  if (AI.test(text)) return { text: text.replace(AI, ''), of: 'ai' }
  if (AE.test(text)) return { text: text.replace(AE, ''), of: 'ae' }
  return { text: text.replace(PRODUCT, ''), of: 'product' }
}

/** `1000 ft2`, `acre`, `100 gal`, `thousand`. A thousand alone means square feet, as crews say it. */
function readBase(text: string, rules: TermRules): Result<Quantity, QuantityProblem> {
  if (text === '') return fail({ kind: 'no-per', text: quote(rules.typed) })
  const startsWithNumber = /^[+-]?[.,]?\d/.test(text)
  const isThousandWord = /^(?:k|thousand|mil)(?![a-z])/i.test(text)
  const number = readNumber(startsWithNumber ? text : `1 ${text}`, {
    locale: rules.locale ?? 'en',
    expected: rules.expected,
  })
  if (!number.ok) return number
  if (big(number.value.value).isZero()) return fail({ kind: 'zero', text: quote(rules.typed) })
  if (
    number.value.rest === '' &&
    (isThousandWord || number.value.value === '1000') &&
    rules.dimensions.includes('area')
  )
    return ok({ value: '1', unit: '1000 ft2' })
  if (number.value.rest === '')
    return fail({ kind: 'no-unit', text: quote(rules.typed), expected: rules.expected })
  const [unitText = '', ...more] = number.value.rest.split(PER)
  const unit = readUnit(unitText, number.value.value, rules)
  if (!unit.ok) return unit
  if (more.length > 0)
    return fail({ kind: 'trailing', text: quote(rules.typed), rest: quote(more.join('/')) })
  return ok(canonicalBase(number.value.value, unit.value))
}

/** 1000 ft2 and 100 m2 are units of their own in the trade. */
function canonicalBase(value: string, unit: UnitId): Quantity {
  if (unit === 'ft2' && value === '1000') return { value: '1', unit: '1000 ft2' }
  if (unit === 'm2' && value === '100') return { value: '1', unit: '100 m2' }
  return quantity(value, unit)
}
