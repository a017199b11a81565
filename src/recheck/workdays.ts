import { z } from 'zod'
import type { Day } from '#src/label/day.ts'
import { addDays, daysBetween, PlainDay } from '#src/label/day.ts'

/** Days of the week by ISO 8601: 1 Monday to 7 Sunday. */
const Weekday = z.int().min(1).max(7)

/** When a crew comes by anyway: every so many days from a day on, or on listed days. */
export const Round = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('every'), days: z.int().min(1).max(366), from: PlainDay }),
  z.strictObject({ kind: z.literal('on'), days: z.array(PlainDay).min(1) }),
])
export type Round = z.infer<typeof Round>

/** The days on which a crew or a person works. */
export const Workdays = z.strictObject({
  weekdays: z.array(Weekday).min(1).default([1, 2, 3, 4, 5]),
  daysOff: z.array(PlainDay).default([]),
})
export type Workdays = z.infer<typeof Workdays>

/** Where a person's days differ from the crew's: other days of the week, and days off on top of the crew's. */
export const OwnDays = z.strictObject({
  weekdays: z.array(Weekday).min(1).nullable().default(null),
  daysOff: z.array(PlainDay).default([]),
})
export type OwnDays = z.infer<typeof OwnDays>

/** The days on which a person of the crew works. */
export function workdaysOf(crew: Workdays, own: OwnDays): Workdays {
  return { weekdays: own.weekdays ?? crew.weekdays, daysOff: [...crew.daysOff, ...own.daysOff] }
}

/** 1 Monday to 7 Sunday. */
export function weekdayOf(day: Day): number {
  const sinceMonday = daysBetween('2024-01-01', day) % 7
  return ((sinceMonday + 7) % 7) + 1
}

export function isWorkday(day: Day, { weekdays, daysOff }: Workdays): boolean {
  return weekdays.includes(weekdayOf(day)) && !daysOff.includes(day)
}

/** Who is off longer than this has no next workday. */
const LONGEST_BREAK_DAYS = 400

/** The day itself or the first workday after it; null when there is none for more than a year. */
export function workdayFrom(day: Day, workdays: Workdays): Day | null {
  for (let ahead = 0; ahead <= LONGEST_BREAK_DAYS; ahead += 1) {
    const tried = addDays(day, ahead)
    if (isWorkday(tried, workdays)) return tried
  }
  return null
}

/** Workdays after the first day, up to and with the last. */
export function workdaysBetween(first: Day, last: Day, workdays: Workdays): number {
  const days = Math.max(0, Math.min(daysBetween(first, last), LONGEST_BREAK_DAYS))
  return Array.from({ length: days }, (_, at) => addDays(first, at + 1)).filter((day) =>
    isWorkday(day, workdays),
  ).length
}

/** Does the round come by on this day? */
export function isOnRound(day: Day, round: Round): boolean {
  if (round.kind === 'on') return round.days.includes(day)
  const since = daysBetween(round.from, day)
  return since >= 0 && since % round.days === 0
}
