import { printUnit, printNumber as printUsNumber } from '#src/quantity/print.ts'
import { isUnitId } from '#src/quantity/units.ts'
import type { Catalogue } from './catalogue.ts'

/** A number with its unit, a rate's unit written with a slash: `oz wt/1000 ft2`. */
export interface Amount {
  readonly value: string
  readonly unit: string
}

/** Languages whose numbers and unit signs the quantity room prints, in a form that it reads back. */
function printedLanguage(locale: string): 'en' | 'es' | null {
  const language = locale.split('-')[0]
  return language === 'en' || language === 'es' ? language : null
}

/** A decimal text in the reader's habit: 18500 is `18,500`. What is no number stays as it is. */
export function printNumber(value: string, locale: string): string {
  if (!isNumeric(value)) return value
  const language = printedLanguage(locale)
  if (language !== null) return printUsNumber(value, { locale: language })
  return formatFor(locale).format(value)
}

function isNumeric(value: string): value is `${number}` {
  return /^-?\d+(\.\d+)?(e[+-]?\d+)?$/i.test(value)
}

const formats = new Map<string, Intl.NumberFormat>()

/** Four digits that count, whole numbers never cut, as in the quantity room. */
function formatFor(locale: string): Intl.NumberFormat {
  const known = formats.get(locale)
  if (known !== undefined) return known
  const format = new Intl.NumberFormat(locale, {
    maximumSignificantDigits: 4,
    maximumFractionDigits: 0,
    roundingPriority: 'morePrecision',
  })
  formats.set(locale, format)
  return format
}

/**
 * `2 gal`, `0.113 oz wt/1000 ft²`, `28 days`. A message `unit.<id>` with the parameter `number` wins over the unit's
 * sign: it holds plurals, and whatever a further language calls it. A unit nobody knows is shown by its id.
 */
export function printAmount(words: Catalogue, amount: Amount, locale: string): string {
  const number = printNumber(amount.value, words.intlLocale(locale))
  const named = words.find(locale, `unit.${amount.unit}`)
  if (named !== null) return named.say({ number: Number(amount.value) }, { number })
  const signs = amount.unit.split('/').map((part) => unitSign(part.trim(), words.intlLocale(locale)))
  return `${number} ${signs.join('/')}`
}

/** `lb ai` keeps what is counted behind the unit's sign. */
function unitSign(unit: string, locale: string): string {
  const language = printedLanguage(locale) ?? 'en'
  const [, bare = unit, counted = ''] = /^(.*?)( a[ie])?$/.exec(unit) ?? []
  return isUnitId(bare) ? printUnit(bare, language) + counted : unit
}
