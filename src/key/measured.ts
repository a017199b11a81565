import type { Character } from './schema.ts'

/** Exactly 25.4 mm. */
const MM_PER_INCH = 25.4

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec']

/**
 * A number or span in the unit of a character: `6`, `4-8 mm`, `1/4 in`, `under 2`, `about 6 mm`, months by name.
 * Undefined when there is no number.
 */
export function measured(text: string, character: Character): { from: number; to: number } | undefined {
  const lower = text.toLowerCase()
  if (character.kind === 'month') return months(lower)
  const numbers = [...lower.matchAll(/(\d+)\s+(\d+)\/(\d+)|(\d+)\/(\d+)|\d+(?:[.,]\d+)?/g)].map(numberOf)
  const [first, second] = numbers
  if (first === undefined) return undefined
  const factor = /\b(in|inch|inches)\b|["”]/.test(lower) ? MM_PER_INCH : /\bcm\b/.test(lower) ? 10 : 1
  const grid = character.grid ?? []
  const top = grid.at(-1) ?? first
  if (/\b(under|below|less|up to|at most)\b|</.test(lower)) return { from: grid[0] ?? 0, to: first * factor }
  if (/\b(over|above|more|at least)\b|>/.test(lower))
    return { from: first * factor, to: Math.max(top, first * factor) }
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
    .map((match) => MONTHS.indexOf(match[0].slice(0, 3)) + 1)
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
