import { BoundedMap } from '#src/memory/bounded-map.ts'
import type { Big, Numeric } from './big.ts'
import { big, compareNumbers, decimalText } from './big.ts'
import type { UnitId } from './units.ts'
import { dimensionOf, factorOf } from './units.ts'

/** A number with its unit. `value` is a canonical decimal text, exact to 50 digits. */
export interface Quantity<U extends UnitId = UnitId> {
  readonly value: string
  readonly unit: U
}

export function quantity<U extends UnitId>(value: Numeric, unit: U): Quantity<U> {
  return { value: decimalText(value), unit }
}

const celsius = (value: Big, from: UnitId) => (from === 'C' ? value : value.minus(32).times(5).div(9))
const fromCelsius = (value: Big, to: UnitId) => (to === 'C' ? value : value.times(9).div(5).plus(32))

/**
 * A bare number counted in another unit of the same dimension, with all working digits.
 * A temperature is a point on the scale, not a difference: 32 F is 0 C.
 * @throws RangeError when the two units do not measure the same thing.
 */
export function convertNumber(value: Numeric, from: UnitId, to: UnitId): Big {
  if (dimensionOf(from) !== dimensionOf(to)) throw new RangeError(`Cannot turn ${from} into ${to}`)
  if (from === to) return big(value)
  return typeof value === 'string'
    ? converted(`${value} ${from}>${to}`, value, from, to)
    : turn(big(value), from, to)
}

function turn(number: Big, from: UnitId, to: UnitId): Big {
  if (dimensionOf(from) === 'temperature') return fromCelsius(celsius(number, from), to)
  return number.times(factorOf(from)).div(factorOf(to))
}

/** What a label or a sprayer says is turned into the same units for every request. */
const MOST_CONVERTED = 2000
const known = new BoundedMap<string, Big>(MOST_CONVERTED)

function converted(key: string, value: string, from: UnitId, to: UnitId): Big {
  const before = known.get(key)
  if (before !== undefined) return before
  const made = turn(big(value), from, to)
  known.set(key, made)
  return made
}

/** The same quantity in another unit. @throws RangeError when the units do not measure the same thing. */
export function convert<U extends UnitId>(from: Quantity, unit: U): Quantity<U> {
  return quantity(convertNumber(from.value, from.unit, unit), unit)
}

/** The quantity as a bare number of `unit`, with all working digits. */
export function amountIn(from: Quantity, unit: UnitId): Big {
  return convertNumber(from.value, from.unit, unit)
}

export function isSameDimension(a: UnitId, b: UnitId): boolean {
  return dimensionOf(a) === dimensionOf(b)
}

/** −1, 0 or 1. @throws RangeError when the two do not measure the same thing. */
export function compareQuantities(a: Quantity, b: Quantity): -1 | 0 | 1 {
  return compareNumbers(a.value, amountIn(b, a.unit))
}

/** The sum, in the unit of the first. */
export function add<U extends UnitId>(a: Quantity<U>, b: Quantity): Quantity<U> {
  return quantity(big(a.value).plus(amountIn(b, a.unit)), a.unit)
}

/** What remains, in the unit of the first; it can be negative. */
export function subtract<U extends UnitId>(a: Quantity<U>, b: Quantity): Quantity<U> {
  return quantity(big(a.value).minus(amountIn(b, a.unit)), a.unit)
}

export function scale<U extends UnitId>(a: Quantity<U>, times: Numeric): Quantity<U> {
  return quantity(big(a.value).times(big(times)), a.unit)
}

/** How often `b` goes into `a`, as a bare number. */
export function ratioOf(a: Quantity, b: Quantity): Big {
  return big(a.value).div(amountIn(b, a.unit))
}

export function isZero(a: Quantity): boolean {
  return big(a.value).isZero()
}
