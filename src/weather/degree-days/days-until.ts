import { dayNumber } from './plain-day.ts'
import type { DegreeDays } from './sum.ts'

/** So many of the last days say what a day brings at present. Common practice, no source. */
const PRESENT_DAYS = 7

export interface DegreesAhead {
  /** Degree days that are still lacking; zero when they are there. */
  readonly lacking: number
  /** What a day has brought lately, on average. */
  readonly daily: number
  /** Whole days after `today`; null when at present a day brings nothing. */
  readonly days: number | null
}

/**
 * When a total will be reached if the weather stays as it is. The days between the last that was counted and today are
 * taken to have been like the others.
 */
export function daysUntil(wanted: number, counted: DegreeDays, today: string): DegreesAhead {
  const lacking = Math.max(0, wanted - Number(counted.total))
  const lately = counted.running.slice(-PRESENT_DAYS).map(({ degreeDays }) => Number(degreeDays))
  const daily = lately.reduce((sum, one) => sum + one, 0) / Math.max(1, lately.length)
  if (lacking === 0) return { lacking, daily, days: 0 }
  if (daily <= 0) return { lacking, daily, days: null }
  const sinceLast = (dayNumber(today) ?? 0) - (dayNumber(counted.lastDay) ?? 0)
  return { lacking, daily, days: Math.max(0, Math.ceil(lacking / daily) - Math.max(0, sinceLast)) }
}
