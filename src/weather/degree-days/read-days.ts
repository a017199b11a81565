import { big, compareNumbers, decimalText } from '#src/quantity/big.ts'
import { convertNumber } from '#src/quantity/quantity.ts'
import type { Reason } from '../reason.ts'
import { reason } from '../reason.ts'
import type { DayTemperatures } from './one-day.ts'
import { dayNumber, dayText } from './plain-day.ts'

export interface DatedTemperatures extends DayTemperatures {
  /** Plain date, `2026-04-01`. */
  readonly day: string
}

export interface ReadDaysOptions {
  /** Unit of numbers that carry none. */
  readonly unit: 'F' | 'C'
  /** The day of the first line without a date; later ones follow day by day. */
  readonly firstDay?: string
  /** Year of dates such as 4/1. */
  readonly year?: number
  /** In Spanish a comma between digits is a decimal sign. @default 'en' */
  readonly locale?: 'en' | 'es'
}

export type ReadDays =
  | { readonly ok: true; readonly days: readonly DatedTemperatures[] }
  | { readonly ok: false; readonly problems: readonly Reason[] }

/** More lines than ten years of days are not a season (common practice, no source). */
const MOST_LINES = 3660

/**
 * Reads typed or pasted daily temperatures, a day a line: `2026-04-01 74 52`, `4/1, 74, 52`, `74/52`, `74/52; 58/40`,
 * `23.4 C 9 C`. The higher of the two is the maximum, so either order will do. Lines without a digit are headings.
 * Every line that cannot be read is named; nothing is kept of a text with one.
 */
export function readDailyTemperatures(text: string, options: ReadDaysOptions): ReadDays {
  const lines = text
    .split(/[\n;]+/)
    .map((line) => line.trim())
    .filter((line) => /\d/.test(line))
  if (lines.length === 0) return { ok: false, problems: [reason('question', 'weather.days-none')] }
  if (lines.length > MOST_LINES)
    return { ok: false, problems: [reason('refusal', 'weather.days-too-many', { most: MOST_LINES })] }
  const days: DatedTemperatures[] = []
  const problems: Reason[] = []
  const seen = new Set<string>()
  for (const [index, line] of lines.entries()) {
    const previous = days.at(-1)?.day
    const read = readLine(line, { ...options, next: nextDay(previous, options.firstDay) })
    if ('id' in read) problems.push({ ...read, with: { ...read.with, number: index + 1 } })
    else if (seen.has(read.day))
      problems.push(reason('refusal', 'weather.day-twice', { day: { day: read.day }, number: index + 1 }))
    else {
      seen.add(read.day)
      days.push(read)
    }
  }
  if (problems.length > 0) return { ok: false, problems }
  return { ok: true, days: days.toSorted((a, b) => (a.day < b.day ? -1 : 1)) }
}

function nextDay(previous: string | undefined, first: string | undefined): string | undefined {
  const number = previous === undefined ? null : dayNumber(previous)
  return number === null ? first : dayText(number + 1)
}

interface LineOptions extends ReadDaysOptions {
  readonly next: string | undefined
}

const NUMBER = /[-−]?\d+(?:\.\d+)?/g

function readLine(line: string, options: LineOptions): DatedTemperatures | Reason {
  const dated = takeDate(line, options)
  const figures = { line: line.slice(0, 60) }
  if (dated === null) return reason('refusal', 'weather.day-impossible', figures)
  const rest = tidy(dated.rest, options.locale ?? 'en')
  const numbers = rest.match(NUMBER) ?? []
  const units = new Set((rest.match(/[FC](?![a-z])/gi) ?? []).map((unit) => unit.toUpperCase()))
  if (numbers.length !== 2 || /[a-z]/i.test(rest.replace(/°?[FC](?![a-z])/gi, '')) || units.size > 1)
    return reason('refusal', 'weather.day-unreadable', figures)
  if (dated.day === undefined) return reason('question', 'weather.day-undated', figures)
  const unit = units.has('C') ? 'C' : units.has('F') ? 'F' : options.unit
  const [a, b] = numbers.map((number) => decimalText(big(number.replace('−', '-')))) as [string, string]
  const [max, min] = compareNumbers(a, b) >= 0 ? [a, b] : [b, a]
  const day = { day: dated.day, max, min, unit } as const
  return isBelievable(day) ? day : reason('refusal', 'weather.day-absurd', figures)
}

/** Colder or hotter than weather stations have ever read. */
function isBelievable(day: DayTemperatures): boolean {
  const celsius = (value: string) => convertNumber(value, day.unit, 'C')
  return compareNumbers(celsius(day.max), 60) <= 0 && compareNumbers(celsius(day.min), -90) >= 0
}

interface Dated {
  readonly day: string | undefined
  readonly rest: string
}

const ISO = /^(\d{4}-\d{2}-\d{2})(?=[\s,:|])/
/** A month and a day with something clearly behind them, so that `74/52` stays two temperatures. */
const AMERICAN = /^(\d{1,2})\/(\d{1,2})(?:\/(\d{4}))?(?=[\s,:|]+[^\d\s]*\s*[-−]?\d)/

function takeDate(line: string, options: LineOptions): Dated | null {
  const iso = ISO.exec(line)
  if (iso !== null) return checked(iso[1] ?? '', line.slice(iso[0].length))
  const american = AMERICAN.exec(line)
  if (american === null) return { day: options.next, rest: line }
  const year = american[3] ?? options.year ?? options.firstDay?.slice(0, 4)
  if (year === undefined) return { day: undefined, rest: line.slice(american[0].length) }
  const two = (part: string | undefined) => (part ?? '').padStart(2, '0')
  return checked(`${year}-${two(american[1])}-${two(american[2])}`, line.slice(american[0].length))
}

function checked(day: string, rest: string): Dated | null {
  return dayNumber(day) === null ? null : { day, rest }
}

/** Leaves only numbers, their signs and units; a dash or slash between two numbers is no minus. */
function tidy(text: string, locale: 'en' | 'es'): string {
  const decimal = locale === 'es' ? text.replace(/(\d),(\d)/g, '$1.$2') : text
  return decimal
    .replace(
      /\b(max(?:imum|\.)?|min(?:imum|\.)?|high|low|hi|lo|m[aá]x(?:ima|\.)?|m[ií]n(?:ima|\.)?)\b\.?/gi,
      ' ',
    )
    .replace(/(\d\s*°?\s*[FC]?)\s*[/|]\s*/gi, '$1 ')
    .replace(/(\d)(?:[-–]|\s+[-–]\s+)(?=\d)/g, '$1 ')
    .replace(/[,:=\t]/g, ' ')
}
