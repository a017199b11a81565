import { addDays, dayIn, momentIn } from '#src/desk/clock.ts'
import { findCrew } from '#src/store/crews.ts'
import type { Database } from '#src/store/open.ts'
import { readOnly } from '#src/store/transaction.ts'

/** Beyond this many mornings only the last ones are lived through: nobody waits for ten years of them. */
const MOST_MORNINGS = 400

/**
 * The mornings that the practice clock passes while it is moved, at which the bot would have sent what was due. Without
 * them a jump over a reminder's day would look like days of downtime.
 */
export async function workMornings(
  database: Database,
  crewKey: string,
  { fromMs, toMs }: { readonly fromMs: number; readonly toMs: number },
): Promise<number[]> {
  const crew = await readOnly(database, (db) => findCrew(db, crewKey))
  if (crew === undefined) return []
  const { zone, settings } = crew
  const days: string[] = []
  const last = dayIn(zone, toMs)
  for (let day = last; days.length < MOST_MORNINGS && day >= dayIn(zone, fromMs); day = addDays(day, -1))
    days.unshift(day)
  return days
    .map((day) => momentIn(zone, day, settings.startsAt))
    .filter((atMs) => atMs > fromMs && atMs < toMs)
}
