import { z } from 'zod'
import type { Day } from '#src/label/day.ts'
import { addDays } from '#src/label/day.ts'
import { Workdays, workdayFrom } from './workdays.ts'

/** Plain days and times in a time zone, as the program's clock reads them. */
export interface ZoneTime {
  /** The moment of a plain day and time. */
  readonly momentIn: (zone: string, day: Day, time: string) => number
  /** The plain day of a moment. */
  readonly dayIn: (zone: string, atMs: number) => Day
}

/** A time of day on a 24-hour clock. */
export const Time = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time such as 07:00')

/** When messages may reach somebody: the zone, the working hours and the days of work. */
export const WorkTime = z
  .strictObject({
    zone: z.string().min(1),
    /** Common practice, no source: a crew that gathers at seven. */
    starts: Time.default('07:00'),
    ends: Time.default('17:00'),
    workdays: Workdays.default({ weekdays: [1, 2, 3, 4, 5], daysOff: [] }),
  })
  .refine(({ starts, ends }) => starts < ends, 'the day ends before it starts')
export type WorkTime = z.infer<typeof WorkTime>

/**
 * The first moment from now on at which a message for a day may go out: on a workday, within the working hours, not
 * before the day itself. Null when nobody works for more than a year.
 */
export function sendMoment(
  work: WorkTime,
  day: Day,
  at: { readonly nowMs: number; readonly time: ZoneTime },
): number | null {
  const today = at.time.dayIn(work.zone, at.nowMs)
  let tried = workdayFrom(day > today ? day : today, work.workdays)
  while (tried !== null) {
    const hours = hoursOn(work, tried, at.time)
    if (hours !== null && at.nowMs <= hours.endsMs) return Math.max(hours.startsMs, at.nowMs)
    tried = workdayFrom(addDays(tried, 1), work.workdays)
  }
  return null
}

/** Is this moment within somebody's working hours? */
export function isAtWork(work: WorkTime, atMs: number, time: ZoneTime): boolean {
  return sendMoment(work, time.dayIn(work.zone, atMs), { nowMs: atMs, time }) === atMs
}

/** The working hours of a day as moments; null for a day that the zone's calendar has left out. */
function hoursOn(
  { zone, starts, ends }: WorkTime,
  day: Day,
  time: ZoneTime,
): { readonly startsMs: number; readonly endsMs: number } | null {
  const startsMs = firstMoment(zone, { day, time: starts }, time)
  if (time.dayIn(zone, startsMs) !== day) return null
  return { startsMs, endsMs: firstMoment(zone, { day, time: ends }, time) }
}

/** How far clocks are known to be set back, in minutes, the widest first: Troll station two hours, Lord Howe half of one. */
const SET_BACK_MINUTES = [120, 60, 30]

/**
 * The moment of a local time. A time that a change of clocks leaves out becomes the time it is then, and of a time that
 * comes twice the first is meant, so that nobody hears late.
 */
function firstMoment(
  zone: string,
  local: { readonly day: Day; readonly time: string },
  time: ZoneTime,
): number {
  const found = time.momentIn(zone, local.day, local.time)
  const shown = shownTime(zone, found)
  const earlier = SET_BACK_MINUTES.map((minutes) => found - minutes * 60_000)
  return earlier.find((atMs) => shownTime(zone, atMs) === shown) ?? found
}

const formats = new Map<string, Intl.DateTimeFormat>()

/** Day and time that clocks of the zone show. */
function shownTime(zone: string, atMs: number): string {
  const known = formats.get(zone)
  const format =
    known ?? new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short', timeStyle: 'short' })
  if (known === undefined) formats.set(zone, format)
  return format.format(atMs)
}
