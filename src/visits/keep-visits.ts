import { type Param, say } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import type { Day } from '#src/label/day.ts'
import { next } from '#src/recheck/next.ts'
import { recordName } from '#src/record/number.ts'
import type { KeptVisits } from '#src/store/visits.ts'
import type { Application } from './application.ts'
import { crewDaysOf } from './crew-days.ts'
import { planVisits } from './plan-visits.ts'

/** The looks begin with the first plot; whoever marks it looks after it. What was said of the untreated spot is kept. */
export async function keepVisits(
  application: Application,
  said: { readonly untreated?: KeptVisits['untreated'] | undefined; readonly seeding?: Day | undefined },
  { store, crew, person, nowMs }: Tools,
): Promise<KeptVisits> {
  const { row } = application
  const { untreated } = said
  const known = await store.visits.ofRecord(row.number)
  if (known !== undefined) {
    if (untreated === undefined) return known
    await store.visits.update(known.id, { untreated }, nowMs)
    return { ...known, untreated }
  }
  const visits = {
    recordNumber: row.number,
    walkId: null,
    siteId: row.siteId,
    areaId: row.areaId,
    ownerId: person.id,
    plan: planVisits(application, { crew, person }, said.seeding),
    untreated: untreated ?? 'open',
  } as const
  return { id: await store.visits.create(visits, nowMs), ...visits }
}

/** The newest earlier application of this area that has plots. */
export async function earlierOnGround(
  { row }: Application,
  { store }: Pick<Tools, 'store'>,
): Promise<KeptVisits | null> {
  if (row.areaId === null) return null
  const all = await store.visits.ofArea(row.areaId)
  return all.filter(({ recordNumber }) => recordNumber !== null && recordNumber < row.number).at(-1) ?? null
}

const FOLLOWED = 'Followed by '

/** Why a look was left out: what somebody typed, as it stands; that another application followed, in the reader's words. */
export function sayWhySkipped(reason: string): Param {
  const record = reason.startsWith(FOLLOWED) ? reason.slice(FOLLOWED.length) : ''
  return /^R\d+$/.test(record) ? say('visits.followed-by', { record }) : reason
}

/** Ends the looks of an application that was followed by another on the same plots. */
export async function closeRest(before: KeptVisits, after: Application, tools: Tools): Promise<void> {
  const { store, crew, person, today, nowMs } = tools
  const reason = `${FOLLOWED}${recordName(after.row.number)}`
  const plan = before.plan.looks.reduce((so, { id }) => {
    const step = next(
      so,
      { kind: 'skipped', look: id, on: today, by: String(person.id), reason },
      crewDaysOf(crew),
    )
    return step.ok ? step.value : so
  }, before.plan)
  await store.visits.update(before.id, { plan }, nowMs)
}
