import dayjs from 'dayjs'
import timezone from 'dayjs/plugin/timezone.js'
import utc from 'dayjs/plugin/utc.js'
import { remember } from '#src/memory/remember.ts'

dayjs.extend(utc)
dayjs.extend(timezone)

/** The plain day, YYYY-MM-DD, that this moment falls on in a time zone. */
export function dayIn(zone: string, atMs: number): string {
  return formatsOf(zone).day.format(atMs)
}

/** The time of day, `14:05`, on the wall of a time zone. */
export function clockIn(zone: string, atMs: number): string {
  return formatsOf(zone).clock.format(atMs)
}

interface Formats {
  readonly day: Intl.DateTimeFormat
  readonly clock: Intl.DateTimeFormat
}
const formats = new Map<string, Formats>()

function formatsOf(zone: string): Formats {
  const known = formats.get(zone)
  if (known !== undefined) return known
  let clock: Intl.DateTimeFormat | null = null
  const made = {
    // Swedish dates are written year-month-day.
    day: new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short' }),
    get clock() {
      clock ??= new Intl.DateTimeFormat('en-GB', {
        timeZone: zone,
        hour: '2-digit',
        minute: '2-digit',
        hourCycle: 'h23',
      })
      return clock
    },
  }
  formats.set(zone, made)
  return made
}

/** The moment of a plain day and time in a zone. Plain dates are added up first: a zoned value would slip an hour. */
export function momentIn(zone: string, day: string, time: string): number {
  return momentOf(`${zone} ${day} ${time}`)
}

/** The start and end of a job, and seven in the morning, are asked for again and again; finding one takes long. */
const MOST_MOMENTS = 500
const momentOf = remember((text) => {
  const [zone, ...local] = text.split(' ')
  return dayjs.tz(local.join(' '), zone).valueOf()
}, MOST_MOMENTS)

/** A plain day, some days on. */
export function addDays(day: string, days: number): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10)
}

/** The day after this one in UTC: nowhere on earth is a day further ahead. */
export function furthestDay(atMs: number): string {
  return addDays(new Date(atMs).toISOString().slice(0, 10), 1)
}

/** Whole days from one plain day to another; negative when the second is earlier. */
export function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000)
}
