import type { Character } from './schema.ts'

/** Exactly 25.4 mm. */
const MM_PER_INCH = 25.4

/** First letters of the months, in English and in Spanish where they differ. */
const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec']
const SPANISH_MONTHS: Readonly<Record<string, string>> = {
  ene: 'jan',
  abr: 'apr',
  ago: 'aug',
  set: 'sep',
  dic: 'dec',
}

const INCHES = /\b(in|inch|inches|pulgadas?|pulg)\b|["”]/
const CENTIMETERS = /\b(cm|centimetros?)\b/
const AT_MOST = /\b(under|below|less|up to|at most|no mas|menos|menor|hasta|cuando mucho|maximo)\b|</
const AT_LEAST = /\b(over|above|more|at least|al menos|por lo menos|cuando menos|minimo|mas|mayor)\b|>/

const MILLIMETERS = /\b\d+(?:[.,]\d+)?\s*mm\b|\b(mm|milimetros?|millimet(?:er|re)s?)\b/

/** Whether a length is said with its unit: `6 mm`, `1/4 in`. */
export function saysLength(text: string): boolean {
  const plain = text.toLowerCase().normalize('NFD').replace(/\p{M}/gu, '')
  return [MILLIMETERS, CENTIMETERS, INCHES].some((unit) => unit.test(plain))
}

/** Words and figures that a span is made of, taken out. */
export function besideSpan(text: string): string {
  return text
    .replace(new RegExp([AT_MOST.source, AT_LEAST.source].join('|'), 'g'), ' ')
    .replace(/[\d\s./,-]+|\b(to|a|y|and|de)\b/g, ' ')
    .trim()
}

/**
 * A number or span in the unit of a character: `6`, `4-8 mm`, `1/4 in`, `under 2`, `menos de 2 mm`, `1/4 de pulgada`,
 * `about 6 mm`, months by name.
 * Undefined when there is no number.
 */
export function measured(text: string, character: Character): { from: number; to: number } | undefined {
  const lower = text
    .toLowerCase()
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/\bmas o menos\b/g, ' ')
  if (character.kind === 'month') return months(lower)
  const numbers = [...lower.matchAll(/(\d+)\s+(\d+)\/(\d+)|(\d+)\/(\d+)|\d+(?:[.,]\d+)?/g)].map(numberOf)
  const [first, second] = numbers
  if (first === undefined) return undefined
  const factor = INCHES.test(lower) ? MM_PER_INCH : CENTIMETERS.test(lower) ? 10 : 1
  const grid = character.grid ?? []
  const top = grid.at(-1) ?? first
  // "por lo menos" and "cuando menos" hold the word for less, and mean the other side.
  const isLeast = /\b(al|por lo|cuando) menos\b/.test(lower)
  if (!isLeast && AT_MOST.test(lower)) return { from: grid[0] ?? 0, to: first * factor }
  if (AT_LEAST.test(lower)) return { from: first * factor, to: Math.max(top, first * factor) }
  const other = second ?? first
  return { from: Math.min(first, other) * factor, to: Math.max(first, other) * factor }
}

function numberOf(match: RegExpMatchArray): number {
  const [whole, mixed, top, bottom, over, under] = match
  if (mixed !== undefined) return Number(mixed) + Number(top) / Number(bottom)
  if (over !== undefined) return Number(over) / Number(under)
  return Number((whole ?? '').replace(',', '.'))
}

function months(text: string): { from: number; to: number } | undefined {
  const named = [...text.matchAll(/[a-z]{3,}/g)]
    .map((match) => match[0].slice(0, 3))
    .map((begin) => MONTHS.indexOf(SPANISH_MONTHS[begin] ?? begin) + 1)
    .filter((month) => month > 0)
  const numbers = [...text.matchAll(/\d+/g)]
    .map((match) => Number(match[0]))
    .filter((month) => month >= 1 && month <= 12)
  const all = named.length > 0 ? named : numbers
  const first = all[0]
  if (first === undefined) return undefined
  const other = all[1] ?? first
  return { from: Math.min(first, other), to: Math.max(first, other) }
}
