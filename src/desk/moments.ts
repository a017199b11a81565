import type { Moment } from '#src/record/values.ts'
import { clockIn, dayIn, momentIn } from './clock.ts'

/** A moment with what the clock on the wall said then, to the minute. */
export function momentOf(zone: string, atMs: number): Moment {
  return { atMs, local: `${dayIn(zone, atMs)} ${clockIn(zone, atMs)}`, zone }
}

/** The moment of a plain day and minutes after midnight. An hour that the clock skips is read an hour later. */
export function momentAt(zone: string, day: string, minutes: number): Moment {
  const pad = (number: number) => String(number).padStart(2, '0')
  return momentOf(zone, momentIn(zone, day, `${pad(Math.floor(minutes / 60))}:${pad(minutes % 60)}`))
}

/** Minutes after midnight on the wall. */
export function minutesOf({ local }: Moment): number {
  return Number(local.slice(11, 13)) * 60 + Number(local.slice(14, 16))
}
