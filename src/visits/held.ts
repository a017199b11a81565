import { momentIn } from '#src/desk/clock.ts'
import type { Tools } from '#src/desk/command.ts'
import { addDays } from '#src/label/day.ts'
import { next } from '#src/recheck/next.ts'
import { nextLookOf } from '#src/recheck/plan.ts'
import { planSingleLook } from '#src/recheck/schedule.ts'
import { crewDaysOf } from './crew-days.ts'

/** Common practice, no source: a plant that was mown again may show its head a week later. */
const DAYS_OPEN = 7

interface Held {
  readonly walkId: number
  readonly siteId: number | null
  readonly areaId: number | null
}

/**
 * Plans one look at a plant that could not be named; a later wish takes the place of an earlier one.
 * @returns the moment of the morning on which its message comes
 */
export async function planHeldLook(
  { walkId, siteId, areaId }: Held,
  days: number,
  { store, crew, person, today, nowMs }: Tools,
): Promise<number> {
  const from = addDays(today, days)
  const plan = planSingleLook(
    { heldOn: today, from, to: addDays(from, DAYS_OPEN), lookFor: ['seed-head'] },
    crewDaysOf(crew, person),
  )
  const known = await store.visits.ofWalk(walkId)
  if (known === undefined)
    await store.visits.create(
      { recordNumber: null, walkId, siteId, areaId, ownerId: person.id, plan, untreated: 'none' },
      nowMs,
    )
  else await store.visits.update(known.id, { plan, ownerId: person.id }, nowMs)
  const day = nextLookOf(plan)?.visitOn ?? from
  return momentIn(crew.zone, day, crew.settings.startsAt)
}

/** Somebody has gone on with a held plant: the look that was due at it is taken. */
export async function closeHeldLook(
  walkId: number,
  { store, crew, person, today, nowMs }: Tools,
): Promise<void> {
  const visits = await store.visits.ofWalk(walkId)
  const look = visits === undefined ? null : nextLookOf(visits.plan)
  if (visits === undefined || look === null || look.visitOn > today) return
  const step = next(
    visits.plan,
    { kind: 'looked', look: look.id, on: today, by: String(person.id) },
    crewDaysOf(crew),
  )
  if (step.ok) await store.visits.update(visits.id, { plan: step.value }, nowMs)
}
