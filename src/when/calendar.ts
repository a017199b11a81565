import { type Day, daysBetween, isDay } from '#src/label/day.ts'

/** Where a day without its year is looked for: the record looks back, a plan ahead, anything else to the nearest. */
export type Toward = 'past' | 'future' | 'near'

/** A real day, or null: there is no 31 April. */
export function dayOf(year: number, month: number, day: number): Day | null {
  const text = [String(year).padStart(4, '0'), padded(month), padded(day)].join('-')
  return isDay(text) ? text : null
}

/** The day of this month and date, in the year that `toward` says; null when there is none in the years around. */
export function dayWithoutYear(month: number, day: number, today: Day, toward: Toward): Day | null {
  const year = Number(today.slice(0, 4))
  const near = [0, -1, 1, -2, 2, -3, 3, -4, 4]
    .map((step) => dayOf(year + step, month, day))
    .filter((one) => one !== null)
    .sort((a, b) => Math.abs(daysBetween(a, today)) - Math.abs(daysBetween(b, today)))
  if (toward === 'past') return near.find((one) => one <= today) ?? null
  if (toward === 'future') return near.find((one) => one >= today) ?? null
  return near[0] ?? null
}

/** 0 for Sunday. */
export function weekdayOn(day: Day): number {
  return new Date(`${day}T00:00:00Z`).getUTCDay()
}

function padded(number: number): string {
  return String(number).padStart(2, '0')
}
