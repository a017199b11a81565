import { BoundedMap } from '#src/memory/bounded-map.ts'
import type { Numeric } from './big.ts'
import { big, decimalText } from './big.ts'
import type { Locale } from './number.ts'
import type { Quantity } from './quantity.ts'
import { convert } from './quantity.ts'
import type { Counted, Density, Output, Rate, RateForm, Strength } from './rate.ts'
import type { RoundingWay } from './round.ts'
import { roundToDigits } from './round.ts'
import type { UnitId } from './units.ts'

export interface PrintOptions {
  /** @default 'en' */
  readonly locale?: Locale
  /** Significant digits; whole numbers are never cut. @default 4 */
  readonly digits?: number
  /** @default 'nearest' */
  readonly rounding?: RoundingWay
}

const DIGITS = 4

/** Separates groups of three in Spanish, where a point or comma would be read in two ways. */
const NARROW_SPACE = '\u202f'

/** What differs from the unit's own id on a phone's screen. */
const SYMBOLS: Record<Locale, Partial<Record<UnitId, string>>> = {
  en: { ft2: 'ft²', '1000 ft2': '1000 ft²', m2: 'm²', '100 m2': '100 m²', F: '°F', C: '°C' },
  es: {
    ft2: 'pies²',
    '1000 ft2': '1000 pies²',
    m2: 'm²',
    '100 m2': '100 m²',
    acre: 'acre',
    F: '°F',
    C: '°C',
    ft: 'pies',
    in: 'pulg',
    yd: 'yardas',
    mi: 'millas',
    'oz wt': 'oz peso',
    'fl oz': 'oz líquidas',
    tbsp: 'cda',
    tsp: 'cdta',
    cup: 'taza',
    'fl oz/min': 'oz líquidas/min',
    day: 'días',
  },
}

const COUNTED: Record<Locale, Record<Counted, string>> = {
  en: { product: '', ai: ' ai', ae: ' ae' },
  es: { product: '', ai: ' i.a.', ae: ' e.a.' },
}

/** What the unit is called on the screen. */
export function printUnit(unit: UnitId, locale: Locale = 'en'): string {
  return SYMBOLS[locale][unit] ?? unit
}

/**
 * A number for people: significant digits, thousands grouped. In Spanish three decimals get a fourth, so that
 * `1.125` can never be taken for one thousand one hundred and twenty-five.
 */
export function printNumber(value: Numeric, options: PrintOptions = {}): string {
  const { locale = 'en', digits = DIGITS, rounding = 'nearest' } = options
  if (typeof value !== 'string') return print(value, { locale, digits, rounding })
  const key = `${value} ${locale} ${digits} ${rounding}`
  const known = printed.get(key)
  if (known !== undefined) return known
  const made = print(value, { locale, digits, rounding })
  printed.set(key, made)
  return made
}

/** Labels and tanks say the same numbers all day. */
const MOST_PRINTED = 2000
const printed = new BoundedMap<string, string>(MOST_PRINTED)

function print(value: Numeric, { locale, digits, rounding }: Required<PrintOptions>): string {
  const number = big(value)
  const wholeDigits = Math.max(number.e + 1, digits)
  const text = decimalText(roundToDigits(number, wholeDigits, rounding))
  const [whole = '0', fraction = ''] = text.replace('-', '').split('.')
  const sign = text.startsWith('-') ? '-' : ''
  return `${sign}${group(whole, locale)}${printFraction(whole, fraction, locale)}`
}

function group(whole: string, locale: Locale): string {
  return whole.replace(/\B(?=(\d{3})+$)/g, locale === 'es' ? NARROW_SPACE : ',')
}

function printFraction(whole: string, fraction: string, locale: Locale): string {
  if (fraction === '') return ''
  const isTwofold = locale === 'es' && fraction.length === 3 && whole !== '0' && whole.length <= 3
  return `.${fraction}${isTwofold ? '0' : ''}`
}

/** `2 gal`, `18,500 ft²`, `20 °C`. An area counted in thousands of square feet is printed in square feet. */
export function printQuantity(from: Quantity, options: PrintOptions = {}): string {
  if (from.unit === '1000 ft2') return printQuantity(convert(from, 'ft2'), options)
  if (from.unit === '100 m2') return printQuantity(convert(from, 'm2'), options)
  return `${printNumber(from.value, options)} ${printUnit(from.unit, options.locale)}`
}

/** `acre`, `1000 ft²`, `6,000 ft²`, `100 gal`: what stands behind the stroke. */
function printBase(base: Quantity, options: PrintOptions): string {
  return base.value === '1'
    ? printUnit(base.unit, options.locale)
    : printQuantity(base, { ...options, digits: 10 })
}

/** The unit of a rate without its number: `pt/acre`, `lb ai/acre`, `% v/v`. */
export function printRateForm(form: RateForm, options: PrintOptions = {}): string {
  const { locale = 'en' } = options
  const counted = COUNTED[locale][form.of]
  if (form.kind === 'share') return `%${counted} ${form.basis}`
  return `${printUnit(form.unit, locale)}${counted}/${printBase(form.per, options)}`
}

/** `0.113 oz wt/1000 ft²`, `2 lb ai/acre`, `0.25 % v/v`, `2 lb/100 gal`. */
export function printRate(rate: Rate, options: PrintOptions = {}): string {
  return `${printNumber(rate.value, options)} ${printRateForm(rate, options)}`
}

/** `1 gal/1000 ft²`. */
export function printOutput(output: Output, options: PrintOptions = {}): string {
  return `${printNumber(output.value, options)} ${printUnit(output.unit, options.locale)}/${printBase(output.per, options)}`
}

/** `6.7 lb ai/gal`, `80 % ai`. */
export function printStrength(strength: Strength, options: PrintOptions = {}): string {
  const { locale = 'en' } = options
  const counted = COUNTED[locale][strength.of]
  const number = printNumber(strength.value, options)
  if (strength.kind === 'percent') return `${number} %${counted}`
  return `${number} ${printUnit(strength.unit, locale)}${counted}/${printBase(strength.per, options)}`
}

/** `8.34 lb/gal`. */
export function printDensity(density: Density, options: PrintOptions = {}): string {
  return `${printNumber(density.value, options)} ${printUnit(density.unit, options.locale)}/${printBase(density.per, options)}`
}
