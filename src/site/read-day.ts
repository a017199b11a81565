import type { Toward } from '#src/when/calendar.ts'
import { readWhen } from '#src/when/read-when.ts'

/**
 * A plain day as people type it: `2026-05-04`, `5/4/2026`, `5/4`, `4 may`, `yesterday`, `hace 3 días`; null for
 * anything else, a time of day among it. In the forms that ask for one, the month comes first.
 * @param toward where a day without its year is looked for
 */
export function readDay(text: string, today: string, toward: Toward = 'near'): string | null {
  const read = readWhen(text, { now: { day: today, minutes: 0 }, language: 'en', toward })
  return read.ok && read.value.minutes === undefined ? (read.value.day ?? null) : null
}
