import { big, decimalText } from './big.ts'
import type { Expected, QuantityProblem } from './problem.ts'
import type { Result } from './result.ts'
import { fail, ok } from './result.ts'
import { quote } from './text.ts'

export type Locale = 'en' | 'es'

export interface NumberRules {
  /** Decides how `1,500` is read: 1500 in English, a question in Spanish. */
  readonly locale: Locale
  readonly expected: Expected
  readonly allowNegative?: boolean
}

export interface ReadNumber {
  /** Canonical decimal text. */
  readonly value: string
  /** What follows the number, trimmed. */
  readonly rest: string
}

/** More digits than any scale or label shows. */
const MOST_DIGITS = 25
/** Kitchen and shop fractions go to 1/128 (a fluid ounce of a gallon); `3/1000` is a rate without its unit. */
const LARGEST_DENOMINATOR = 128

const HALF = /^(half(?: an?| of an?)?|medi[ao])\b(?=\s*[a-z])/i
const MIXED = /^(\d+)(?:\s*-\s*|\s+)(\d+)\s*\/\s*(\d+)(?![\d.,])/
const FRACTION = /^(\d+)\s*\/\s*(\d+)(?![\d.,])/
const DECIMAL = /^[.,]?\d[\d.,]*/
const THOUSAND = /^(?:k(?![a-z])|thousand\b|mil\b)/i
const RANGE = /^(?:-|to\b|or\b|a\b(?=\s*\d)|o\b(?=\s*\d)|hasta\b|y\b(?=\s*\d))\s*[.,]?\d/i

type NumberResult = Result<ReadNumber, QuantityProblem>

/** Reads the number a text starts with: `2`, `1/2`, `1 1/2`, `0.113`, `2,5`, `1,000`, `18.5k`. */
export function readNumber(text: string, rules: NumberRules): NumberResult {
  const halved = text.replace(HALF, '1/2')
  const signed = /^([+-])\s*(?=[.,]?\d)/.exec(halved)
  const isNegative = signed?.[1] === '-'
  if (isNegative && !rules.allowNegative) return fail({ kind: 'negative', text: quote(text) })
  const unsigned = signed ? halved.slice(signed[0].length) : halved
  const read = readUnsigned(unsigned, rules)
  if (!read.ok) return read
  if (RANGE.test(read.value.rest)) return fail({ kind: 'range', text: quote(text) })
  const multiplied = applyThousand(read.value)
  return isNegative ? ok({ ...multiplied, value: decimalText(big(multiplied.value).neg()) }) : ok(multiplied)
}

function applyThousand(read: ReadNumber): ReadNumber {
  const word = THOUSAND.exec(read.rest)
  if (!word) return read
  return { value: decimalText(big(read.value).times(1000)), rest: read.rest.slice(word[0].length).trim() }
}

function readUnsigned(text: string, rules: NumberRules): NumberResult {
  const mixed = MIXED.exec(text)
  if (mixed) return readFraction(text, mixed[0], mixed[1] ?? '0', mixed[2] ?? '', mixed[3] ?? '')
  const fraction = FRACTION.exec(text)
  if (fraction) return readFraction(text, fraction[0], '0', fraction[1] ?? '', fraction[2] ?? '')
  const decimal = DECIMAL.exec(text)
  if (!decimal) return fail({ kind: 'no-number', text: quote(text), expected: rules.expected })
  const token = decimal[0].replace(/[.,]$/, '')
  const value = readDecimal(token, rules.locale)
  if (!value.ok) return value
  return ok({ value: value.value, rest: text.slice(decimal[0].length).trim() })
}

function readFraction(
  text: string,
  taken: string,
  whole: string,
  above: string,
  below: string,
): NumberResult {
  const top = big(above)
  const bottom = big(below)
  const isProper = bottom.gt(0) && bottom.lte(LARGEST_DENOMINATOR) && (whole === '0' || top.lt(bottom))
  if (!isProper || taken.length > MOST_DIGITS) return fail({ kind: 'not-a-number', text: quote(text) })
  return ok({ value: decimalText(big(whole).plus(top.div(bottom))), rest: text.slice(taken.length).trim() })
}

/**
 * Reads digits with points and commas. A separator is a decimal one when it cannot stand before thousands
 * (`3,5`, `0,125`, `1234,567`); grouping must be in threes throughout.
 */
export function readDecimal(token: string, locale: Locale): Result<string, QuantityProblem> {
  if (token.replace(/\D/g, '').length > MOST_DIGITS)
    return fail({ kind: 'too-many-digits', text: quote(token) })
  const separators = token.replace(/\d/g, '')
  if (separators === '') return canonical(token)
  const kinds = new Set(separators)
  if (kinds.size === 2) return readBoth(token, separators)
  const separator = separators[0] ?? ''
  if (separators.length > 1)
    return isGrouped(token, separator) ? ungroup(token, separator) : notANumber(token)
  if (!couldBeGrouped(token)) return canonical(token.replace(',', '.'))
  return readThreeDigits(token, separator, locale)
}

/** One separator with exactly three digits behind it: thousands or thousandths. A reading offered must not be twofold again. */
function readThreeDigits(token: string, separator: string, locale: Locale): Result<string, QuantityProblem> {
  const asDecimal = decimalText(token.replace(',', '.'))
  const asThousands = decimalText(token.replace(separator, ''))
  if (locale === 'es') {
    const padded = /\.\d{3}$/.test(asDecimal) ? `${asDecimal}0` : asDecimal
    return fail({ kind: 'ambiguous-number', text: quote(token), readings: [asThousands, padded] })
  }
  return ok(separator === ',' ? asThousands : asDecimal)
}

/** `1,234.5` or `1.234,5`: the last sign is the decimal one and stands once, the other groups. */
function readBoth(token: string, separators: string): Result<string, QuantityProblem> {
  const decimal = separators.at(-1) ?? ''
  const grouping = decimal === ',' ? '.' : ','
  const [whole = '', fraction = ''] = token.split(decimal)
  if (token.split(decimal).length !== 2 || !isGrouped(whole, grouping)) return notANumber(token)
  return canonical(`${whole.replaceAll(grouping, '')}.${fraction}`)
}

function couldBeGrouped(token: string): boolean {
  return /^[1-9]\d{0,2}[.,]\d{3}$/.test(token)
}

function isGrouped(token: string, separator: string): boolean {
  return new RegExp(`^[1-9]\\d{0,2}(\\${separator}\\d{3})+$`).test(token)
}

function ungroup(token: string, separator: string): Result<string, QuantityProblem> {
  return canonical(token.replaceAll(separator, ''))
}

function canonical(token: string): Result<string, QuantityProblem> {
  return ok(decimalText(token.startsWith('.') ? `0${token}` : token))
}

function notANumber(token: string): Result<string, QuantityProblem> {
  return fail({ kind: 'not-a-number', text: quote(token) })
}
