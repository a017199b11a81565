import { addDays, clockIn, dayIn, momentIn } from '#src/desk/clock.ts'
import { recorded } from '#src/record/not-recorded.ts'
import type { ApplicationRecord } from '#src/record/record.ts'
import { dayOf } from '#src/record/values.ts'

const HOUR_MS = 3_600_000

/** Between these hours of its own clock a crew is told what nobody asked for. */
export interface WorkingHours {
  /** `07:00` */
  readonly from: string
  /** `19:00` */
  readonly to: string
}

/**
 * When the application was over. Where its end was not written down it is the latest moment that it can have been: the
 * writing of the record on the same day, else the end of its day.
 */
export function endOf(record: ApplicationRecord, zone: string): number {
  const ended = recorded(record.endedAt)
  if (ended !== undefined) return ended.atMs
  const { writtenAt } = record
  const day = recorded(record.date)
  if (day === undefined || day >= dayOf(writtenAt)) return writtenAt.atMs
  return momentIn(zone, addDays(day, 1), '00:00')
}

/** So many hours later, by the clock that never changes. */
export function hoursAfter(atMs: number, hours: number): number {
  return atMs + hours * HOUR_MS
}

/** The same time of day so many days later, whatever the clocks do in between; never before the moment itself. */
export function daysAfter(atMs: number, days: number, zone: string): number {
  if (days === 0) return atMs
  const later = momentIn(zone, addDays(dayIn(zone, atMs), days), clockIn(zone, atMs))
  return Math.max(later, atMs)
}

/** The moment itself in working hours; outside them the next morning. */
export function orNextMorning(atMs: number, zone: string, { from, to }: WorkingHours): number {
  const time = clockIn(zone, atMs)
  if (time >= from && time <= to) return atMs
  const day = dayIn(zone, atMs)
  return momentIn(zone, time < from ? day : addDays(day, 1), from)
}

/** The moment itself in working hours; outside them the evening before. */
export function orEveningBefore(atMs: number, zone: string, { from, to }: WorkingHours): number {
  const time = clockIn(zone, atMs)
  if (time >= from && time <= to) return atMs
  const day = dayIn(zone, atMs)
  return momentIn(zone, time > to ? day : addDays(day, -1), to)
}
