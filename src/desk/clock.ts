import dayjs from 'dayjs'
import timezone from 'dayjs/plugin/timezone.js'
import utc from 'dayjs/plugin/utc.js'

dayjs.extend(utc)
dayjs.extend(timezone)

/** The plain day, YYYY-MM-DD, that this moment falls on in a time zone. */
export function dayIn(zone: string, atMs: number): string {
  return formatterOf(zone).format(atMs)
}

const formatters = new Map<string, Intl.DateTimeFormat>()

function formatterOf(zone: string): Intl.DateTimeFormat {
  const known = formatters.get(zone)
  if (known !== undefined) return known
  // Swedish dates are written year-month-day.
  const made = new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short' })
  formatters.set(zone, made)
  return made
}

/** The moment of a plain day and time in a zone. Plain dates are added up first: a zoned value would slip an hour. */
export function momentIn(zone: string, day: string, time: string): number {
  return dayjs.tz(`${day} ${time}`, zone).valueOf()
}

/** A plain day, some days on. */
export function addDays(day: string, days: number): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10)
}

/** Whole days from one plain day to another; negative when the second is earlier. */
export function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000)
}
