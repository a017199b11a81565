import type { BigNumber } from 'mathjs'
import { BigNumberDependencies, create, unitDependencies } from 'mathjs'
import { remember } from '#src/memory/remember.ts'

/** Digits that every operation keeps. */
export const WORKING_DIGITS = 64

/** Digits that a stored number keeps at most. */
export const KEPT_DIGITS = 50

/** Digits that count when two numbers are compared or rounded to a step; what lies behind them is division dust. */
export const COMPARED_DIGITS = 40

const SETTINGS = { number: 'BigNumber', precision: WORKING_DIGITS } as const

/** The one kind of number: only that of the library is made at a start, nothing else of it. */
const { BigNumber: OwnNumber } = create({ ...BigNumberDependencies }, SETTINGS) as unknown as {
  readonly BigNumber: new (text: string) => BigNumber
}

/** The library with its units. Making it takes long, and only what units are to each other is asked of it. */
export const withUnits = () => create({ ...BigNumberDependencies, ...unitDependencies }, SETTINGS)

export type Big = BigNumber

/** What can be read as a number: a canonical decimal text, a whole number of the code, or a big number. */
export type Numeric = string | number | Big

const CANONICAL = /^-?(0|[1-9]\d*)(\.\d*[1-9])?$/

/** The same figures come again and again, from labels, sprayers and the code itself; a number never changes. */
const MOST_NUMBERS = 2000
const numberOf = remember((text) => finite(new OwnNumber(text)), MOST_NUMBERS)

/** @throws RangeError for anything that is not a finite number: what people type goes through the parser first. */
export function big(value: Numeric): Big {
  return typeof value === 'object' ? finite(value) : numberOf(String(value))
}

function finite(number: Big): Big {
  if (!number.isFinite())
    throw new RangeError(`Cannot calculate with a number that is not finite: "${number}"`)
  return number
}

/** A number without its division dust, ready to be compared or rounded to a step. */
export function settle(value: Numeric): Big {
  const number = big(value)
  return number.precision() <= COMPARED_DIGITS ? number : number.toSignificantDigits(COMPARED_DIGITS)
}

/**
 * The canonical text of a number: no exponent, no needless zero, at most {@link KEPT_DIGITS} digits. A number
 * that is a shorter one but for dust is written as the shorter one: 1/43560 × 43560 is `1`, not `0.999…`.
 */
export function decimalText(value: Numeric): string {
  if (typeof value === 'string' && value.length <= COMPARED_DIGITS && isDecimalText(value)) return value
  const number = big(value)
  const settled = settle(number)
  const isDust = settled === number || number.toSignificantDigits(COMPARED_DIGITS + 6).equals(settled)
  const text = (isDust ? settled : number.toSignificantDigits(KEPT_DIGITS)).toFixed()
  return text === '-0' ? '0' : text
}

/** Is this text already canonical? `0.5` is, `.5`, `0.50`, `1e3` and `1,000` are not. */
export function isDecimalText(text: string): boolean {
  return CANONICAL.test(text) && text !== '-0'
}

/** −1, 0 or 1, blind to division dust. */
export function compareNumbers(a: Numeric, b: Numeric): -1 | 0 | 1 {
  const order = settle(a).comparedTo(settle(b))
  return order < 0 ? -1 : order > 0 ? 1 : 0
}

export function sumOf(values: Iterable<Numeric>): Big {
  let total = big(0)
  for (const value of values) total = total.plus(big(value))
  return total
}
