import type { Tools } from '#src/desk/command.ts'
import type { Day } from '#src/label/day.ts'
import { next } from '#src/recheck/next.ts'
import { nextLookOf } from '#src/recheck/plan.ts'
import { workdayFrom } from '#src/recheck/workdays.ts'
import { crewDaysOf } from '#src/visits/crew-days.ts'
import { lookAfterRain } from './rained.ts'

/** Days of a look before and after it was moved. */
export interface MovedLook {
  readonly from: Day
  readonly to: Day
}

/**
 * Moves the next look after an application to an earlier workday, since rain may have washed it off.
 * @returns null when none is planned, or an earlier day does not fit the plan: after the look before it, not before the
 *   label's interval
 */
export async function moveLookEarlier(recordNumber: number, tools: Tools): Promise<MovedLook | null> {
  const { store, crew, today, nowMs, canWrite } = tools
  const visits = await store.visits.ofRecord(recordNumber)
  const look = visits === undefined ? null : nextLookOf(visits.plan)
  if (visits === undefined || look === null || !canWrite) return null
  const wanted = lookAfterRain({ treatedOn: visits.plan.treatedOn, visitOn: look.visitOn, today })
  const days = crewDaysOf(crew)
  const to = wanted === null ? null : workdayFrom(wanted, days.workdays)
  if (to === null || to >= look.visitOn) return null
  const moved = next(visits.plan, { kind: 'moved', look: look.id, to }, days)
  if (!moved.ok) return null
  await store.visits.update(visits.id, { plan: moved.value }, nowMs)
  return { from: look.visitOn, to }
}
