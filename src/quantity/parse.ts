import { big, compareNumbers, decimalText } from './big.ts'
import { findUnit, PER } from './find-unit.ts'
import type { Locale, NumberRules } from './number.ts'
import { readNumber } from './number.ts'
import { printQuantity } from './print.ts'
import type { Expected, QuantityProblem } from './problem.ts'
import type { Quantity } from './quantity.ts'
import { amountIn, quantity } from './quantity.ts'
import type { Result } from './result.ts'
import { fail, ok } from './result.ts'
import { openText, quote } from './text.ts'
import type { Dimension, UnitId, UnitOf } from './units.ts'
import { dimensionOf } from './units.ts'

/** How a typed text is to be read. */
export interface ReadingOptions {
  /** @default 'en' */
  readonly locale?: Locale
  /** What a bare ounce is, when the form of the product says so: dry by weight, liquid by volume. */
  readonly ounce?: 'oz wt' | 'fl oz' | undefined
  /** What a bare percentage is, when the form of the product says so. */
  readonly percent?: 'v/v' | 'w/w' | undefined
}

export interface QuantityOptions<D extends Dimension = Dimension> extends ReadingOptions {
  /** The dimensions that make sense here; the first names what the sentences ask for. */
  readonly expect: D | readonly [D, ...D[]]
  /** The unit that a number alone is taken in; without it a number alone is a problem. */
  readonly bareUnit?: UnitOf<D>
  /** More than this is absurd here. */
  readonly limit?: Quantity
  /** @default false */
  readonly allowZero?: boolean
}

/** @internal What the readers of amounts need to know. */
export interface TermRules extends ReadingOptions {
  readonly expected: Expected
  readonly dimensions: readonly Dimension[]
  readonly bareUnit?: UnitId | undefined
  /** The text as typed, for the sentences. */
  readonly typed: string
}

/** A time as on a stopwatch: `1:30`, `0:34.5`. */
const STOPWATCH = /^(\d{1,3}):([0-5]\d(?:\.\d+)?)$/
/** What stands between the sides of a piece of ground. */
const SIDES = /\s*[x×*]\s*(?=\d)|\s+(?:by|por)\s+(?=\d)/i
/** Where a further part of a compound begins: `9 lb 6 oz`, `5' 6"`. */
const NEXT_PART = /(?<=[^\d\s/.,-])\s+(?=\d)/

/**
 * Reads a typed quantity: `2 gal`, `1/2 gal`, `1 1/2 pt`, `½ gal`, `9 lb 6 oz wt`, `1,000 ft2`, `0:34`, `20 °C`.
 * Nothing is guessed: what has two meanings comes back as a problem that names them.
 */
export function parseQuantity<D extends Dimension>(
  text: string,
  options: QuantityOptions<D>,
): Result<Quantity<UnitOf<D>>, QuantityProblem> {
  const dimensions: readonly Dimension[] = Array.isArray(options.expect)
    ? options.expect
    : [options.expect as D]
  const expected = dimensions[0] ?? 'volume'
  const opened = openText(text, expected)
  if (!opened.ok) return opened
  const rules: TermRules = { ...options, expected, dimensions, typed: text }
  const read =
    readStopwatch(opened.value, dimensions) ??
    readSides(opened.value, rules) ??
    readAmount(opened.value, rules)
  if (!read.ok) return read.error.kind === 'no-number' ? fail({ ...read.error, text: quote(text) }) : read
  const problem = checkSize(read.value, options, text)
  return problem ? fail(problem) : ok(read.value as Quantity<UnitOf<D>>)
}

function readStopwatch(text: string, dimensions: readonly Dimension[]): Result<Quantity, never> | undefined {
  const watch = dimensions.includes('time') ? STOPWATCH.exec(text) : null
  if (!watch) return undefined
  return ok(
    quantity(
      big(watch[1] ?? '0')
        .times(60)
        .plus(watch[2] ?? '0'),
      's',
    ),
  )
}

/** `25 ft by 10 ft`, `20 x 17 ft`: two lengths where an area is wanted. */
function readSides(text: string, rules: TermRules): Result<Quantity, QuantityProblem> | undefined {
  const [length = '', width, more] = text.split(SIDES)
  if (!rules.dimensions.includes('area') || width === undefined || more !== undefined) return undefined
  const bareUnit = rules.bareUnit === 'm2' ? 'm' : rules.bareUnit === undefined ? undefined : 'ft'
  const sides: TermRules = { ...rules, expected: 'length', dimensions: ['length'], bareUnit }
  const alone = [readAmount(length, sides), readAmount(width, sides)]
  const unit = alone.map((one) => (one.ok && /[a-z'"]/i.test(text) ? one.value.unit : undefined))
  const [first, second] = [
    readAmount(length, { ...sides, bareUnit: unit[1] ?? bareUnit }),
    readAmount(width, { ...sides, bareUnit: unit[0] ?? bareUnit }),
  ]
  if (!first.ok || !second.ok) return undefined
  const [own, area] = ['m', 'cm', 'mm'].includes(first.value.unit)
    ? (['m', 'm2'] as const)
    : (['ft', 'ft2'] as const)
  return ok(quantity(amountIn(first.value, own).times(amountIn(second.value, own)), area))
}

type SizeLimits = Pick<QuantityOptions, 'locale' | 'limit' | 'allowZero'>

function checkSize(read: Quantity, options: SizeLimits, typed: string): QuantityProblem | undefined {
  if (dimensionOf(read.unit) === 'temperature') return undefined
  if (big(read.value).isZero() && !options.allowZero) return { kind: 'zero', text: quote(typed) }
  const { limit } = options
  if (
    limit &&
    dimensionOf(limit.unit) === dimensionOf(read.unit) &&
    compareNumbers(amountIn(read, limit.unit), limit.value) > 0
  )
    return {
      kind: 'absurd',
      text: quote(typed),
      limit: printQuantity(limit, { locale: options.locale ?? 'en' }),
    }
  return undefined
}

/** @internal One amount with its unit, or a compound such as `9 lb 6 oz`, which adds up in the first unit. */
export function readAmount(text: string, rules: TermRules): Result<Quantity, QuantityProblem> {
  const whole = readNumber(text, numberRules(rules))
  if (!whole.ok) return whole
  const [first = '', ...others] = text.split(NEXT_PART)
  const head = readTerm(first, rules)
  if (!head.ok || others.length === 0) return head
  let total = big(head.value.value)
  let last = head.value
  for (const other of others) {
    const part = readTerm(other, {
      ...rules,
      ounce: rules.ounce ?? ounceBeside(last.unit),
      bareUnit: undefined,
    })
    if (!part.ok) return part
    if (!isSmallerPart(part.value, last))
      return fail({ kind: 'trailing', text: quote(rules.typed), rest: quote(other) })
    total = total.plus(amountIn(part.value, head.value.unit))
    last = part.value
  }
  return ok({ value: decimalText(total), unit: head.value.unit })
}

/** Beside pounds an ounce can only be a weight, beside a liquid measure only a volume. */
function ounceBeside(unit: UnitId): 'oz wt' | 'fl oz' | undefined {
  if (unit === 'lb') return 'oz wt'
  return ['gal', 'qt', 'pt', 'cup'].includes(unit) ? 'fl oz' : undefined
}

function isSmallerPart(part: Quantity, whole: Quantity): boolean {
  if (dimensionOf(part.unit) !== dimensionOf(whole.unit) || part.unit === whole.unit) return false
  return compareNumbers(amountIn({ value: '1', unit: part.unit }, whole.unit), 1) < 0
}

function numberRules(rules: TermRules): NumberRules {
  const allowNegative = rules.dimensions.includes('temperature')
  return { locale: rules.locale ?? 'en', expected: rules.expected, allowNegative }
}

/** A number that goes on where it cannot: `1e3`, `10 000` with a plain space, `1.5.2`. */
const BROKEN_NUMBER = /^(?:e[+-]?)?\d/i

function readTerm(text: string, rules: TermRules): Result<Quantity, QuantityProblem> {
  const number = readNumber(text, numberRules(rules))
  if (!number.ok) return number
  if (BROKEN_NUMBER.test(number.value.rest)) return fail({ kind: 'not-a-number', text: quote(rules.typed) })
  if (number.value.rest === '') {
    if (rules.bareUnit) return ok({ value: number.value.value, unit: rules.bareUnit })
    return fail({ kind: 'no-unit', text: quote(rules.typed), expected: rules.expected })
  }
  const unit = readUnit(number.value.rest, number.value.value, rules)
  if (!unit.ok) return unit
  if (number.value.value.startsWith('-') && dimensionOf(unit.value) !== 'temperature')
    return fail({ kind: 'negative', text: quote(rules.typed) })
  return ok({ value: number.value.value, unit: unit.value })
}

/** @internal The unit in a text; `value` is the number before it, for the question about ounces. */
export function readUnit(text: string, value: string, rules: TermRules): Result<UnitId, QuantityProblem> {
  const found = findUnit(text, rules.dimensions, rules.ounce)
  if (!found.ok) {
    if (found.error.kind === 'bare-ounce')
      return fail({ kind: 'ambiguous-ounce', text: quote(rules.typed), value })
    if (PER.test(text) && rules.dimensions.length > 0 && !isTailOfRate(rules.expected))
      return fail({ kind: 'not-plain', text: quote(rules.typed), expected: rules.expected })
    return fail({ kind: 'unknown-unit', text: quote(text), suggestion: found.error.suggestion })
  }
  if (!rules.dimensions.includes(dimensionOf(found.value)))
    return fail({ kind: 'wrong-dimension', text: quote(rules.typed), expected: rules.expected })
  return found
}

function isTailOfRate(expected: Expected): boolean {
  return ['rate', 'rate-form', 'output', 'strength', 'density'].includes(expected)
}

/** How full a tank is to be: a volume, or a share of what it holds. */
export type Fill =
  | { readonly kind: 'volume'; readonly volume: Quantity<UnitOf<'volume'>> }
  | { readonly kind: 'share'; readonly share: string }

const FULL = /^(?:full|a full tank|1(?= tan(?:k|que)$)|lleno|llena|completo|entero)(?: tank| tanque)?$/i
const SHARE = /^(.*?)\s*(?:(?:of (?:a|the) |a |del? )?(?:tank|full|tanque))?$/i
const HALF = /^(?:half|medio|media|la mitad)$/i

/** Reads `2 gal`, `1/2`, `3/4 tank`, `half`, `50 %`, `full`. A whole or decimal number alone lacks its unit. */
export function parseFill(
  text: string,
  options: ReadingOptions & { limit?: Quantity } = {},
): Result<Fill, QuantityProblem> {
  const opened = openText(text, 'fill')
  if (!opened.ok) return opened
  if (FULL.test(opened.value)) return ok({ kind: 'share', share: '1' })
  const words = SHARE.exec(opened.value)?.[1] ?? ''
  if (HALF.test(words)) return ok({ kind: 'share', share: '0.5' })
  const isShare = /^[^a-z]*\/[^a-z]*$|^[\d\s.,]+(%|percent|por ciento)$/i.test(words)
  if (isShare) return readShare(words, text, options)
  const volume = parseQuantity(text, { ...options, expect: 'volume' })
  return volume.ok ? ok({ kind: 'volume', volume: volume.value }) : volume
}

function readShare(words: string, typed: string, options: ReadingOptions): Result<Fill, QuantityProblem> {
  const number = readNumber(words, { locale: options.locale ?? 'en', expected: 'fill' })
  if (!number.ok) return number
  const share = big(number.value.value).div(number.value.rest === '' ? 1 : 100)
  if (share.isZero()) return fail({ kind: 'zero', text: quote(typed) })
  if (share.gt(1)) return fail({ kind: 'over-full', text: quote(typed) })
  return ok({ kind: 'share', share: decimalText(share) })
}
