import { z } from 'zod'

const DAY_MS = 86_400_000
const SHAPE = /^(\d{4})-(\d{2})-(\d{2})$/
const DAYS_OF_MONTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]

/** A plain date as text, `2025-06-30`: a day on the calendar, in no time zone. */
export type Day = string

/** Is this a real day, written `YYYY-MM-DD`? `2025-02-30` is not. */
export function isDay(text: string): boolean {
  const [, year, month, day] = SHAPE.exec(text)?.map(Number) ?? []
  if (year === undefined || month === undefined || day === undefined) return false
  const isLeap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0)
  const last = month === 2 && isLeap ? 29 : (DAYS_OF_MONTHS[month - 1] ?? 0)
  return day >= 1 && day <= last
}

/** The schema of a stored plain date. */
export const PlainDay = z.string().refine(isDay, { message: 'must be a date such as 2025-06-30' })

/** The day so many days later; earlier when negative. */
export function addDays(day: Day, days: number): Day {
  return textOf(msOf(day) + days * DAY_MS)
}

/** Days from `from` to `to`; negative when `to` lies before it. */
export function daysBetween(from: Day, to: Day): number {
  return Math.round((msOf(to) - msOf(from)) / DAY_MS)
}

/**
 * The same day of the year after. 29 February becomes 1 March, so that a rolling year that began on it is never
 * a day short.
 */
export function addYear(day: Day): Day {
  const next = `${nextYear(day)}${day.slice(4)}`
  return isDay(next) ? next : `${nextYear(day)}-03-01`
}

/** The first day of the next calendar year. */
export function newYearAfter(day: Day): Day {
  return `${nextYear(day)}-01-01`
}

/** The later of two days; plain dates sort as texts. */
export function laterOf(a: Day, b: Day): Day {
  return a > b ? a : b
}

function nextYear(day: Day): string {
  return String(Number(day.slice(0, 4)) + 1).padStart(4, '0')
}

function msOf(day: Day): number {
  return Date.parse(`${day}T00:00:00Z`)
}

function textOf(ms: number): string {
  return Number.isNaN(ms) ? '' : new Date(ms).toISOString().slice(0, 10)
}
