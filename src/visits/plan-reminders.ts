import { addDays, dayIn, furthestDay, momentIn } from '#src/desk/clock.ts'
import { next } from '#src/recheck/next.ts'
import type { LookPlan } from '#src/recheck/plan.ts'
import { type Morning, planMornings } from '#src/recheck/remind.ts'
import { type CrewStore, crewStore } from '#src/store/crew-store.ts'
import { type Crew, getCrew } from '#src/store/crews.ts'
import type { Database } from '#src/store/open.ts'
import type { Person } from '#src/store/people.ts'
import { readOnly, write } from '#src/store/transaction.ts'
import { type KeptVisits, signsOfOpenVisits } from '#src/store/visits.ts'
import { crewDaysOf, workTimeOf, zoneTime } from './crew-days.ts'
import { LOOKS } from './looks.ts'
import { leadOf, morningMessage } from './morning.ts'
import { ownedPlan } from './owned-plans.ts'

interface Planning {
  readonly database: Database
  readonly nowMs: number
  readonly reportError: (error: unknown, about: Readonly<Record<string, unknown>>) => void
}

/** That nothing was to be planned for a crew, and how long that holds while its sign is the same. */
interface Quiet {
  readonly sign: string
  readonly fromMs: number
  readonly untilMs: number
}

/** What this process has found out about each crew of a store; another process finds it out for itself. */
const quietIn = new WeakMap<Database, Map<number, Quiet>>()

/** However sure, each crew is looked at again after this. */
const LONGEST_QUIET_MS = 30 * 60_000

/**
 * Plans the messages whose morning has come: one for each person, with all looks that are theirs to hear of. Message
 * and note of who has been told are written together, so that a crash leaves both or neither. One crew that fails
 * does not hold up the others. A crew for which nothing was to be planned is left alone until its next morning or day,
 * or until its looks, hours or people have changed, or the clock was put back.
 */
export async function planReminders({ database, nowMs, reportError }: Planning): Promise<number> {
  const signs = await readOnly(database, (db) => signsOfOpenVisits(db, furthestDay(nowMs)))
  const before = quietIn.get(database)
  const quiet = new Map<number, Quiet>()
  quietIn.set(database, quiet)
  let planned = 0
  for (const [id, sign] of signs)
    try {
      const known = before?.get(id)
      if (known?.sign === sign && nowMs >= known.fromMs && nowMs < known.untilMs) {
        quiet.set(id, known)
        continue
      }
      const done = await write(database, async (db) => {
        await database.words.lockCrew(db, id)
        const crew = await getCrew(db, id)
        return crew === undefined ? null : planFor(crew, crewStore(db, id), nowMs)
      })
      if (done === null) continue
      planned += done.planned
      quiet.set(id, { sign, fromMs: nowMs, untilMs: Math.min(done.againMs, nowMs + LONGEST_QUIET_MS) })
    } catch (error) {
      reportError(error, { about: 'planning reminders', crew: id })
    }
  return planned
}

/** `againMs`: when there may be more to plan, even if nothing is written before. */
async function planFor(
  crew: Crew,
  store: CrewStore,
  nowMs: number,
): Promise<{ readonly planned: number; readonly againMs: number }> {
  const today = dayIn(crew.zone, nowMs)
  const tomorrowMs = momentIn(crew.zone, addDays(today, 1), '00:00')
  const visits = await store.visits.listOpen(today)
  const people = await store.people.list()
  const lead = leadOf(people, { crew, today })
  if (visits.length === 0 || lead === undefined) return { planned: 0, againMs: tomorrowMs }
  const mornings = planMornings(
    visits.map(ownedPlan),
    {
      people: people.map((one) => ({ person: String(one.id), work: workTimeOf(crew, one) })),
      lead: String(lead.id),
      sentKeys: await sentToday(crew, store, people, today),
    },
    { nowMs, time: zoneTime },
  )
  const due = mornings.filter(({ atMs }) => atMs <= nowMs)
  for (const morning of due) await noteTold(morning, visits, { crew, store, nowMs })
  // Who has not got the last message yet gets no other on top of it: it says all that is open when it leaves.
  const waiting = await store.deliveries.waitingFor(LOOKS)
  const going = due.filter(({ person }) => !waiting.has(Number(person)))
  for (const morning of going) await planMessage(morning, { crew, store, nowMs })
  const ahead = mornings.filter(({ atMs }) => atMs > nowMs).map(({ atMs }) => atMs)
  return { planned: going.length, againMs: Math.min(tomorrowMs, ...ahead) }
}

interface Within {
  readonly crew: Crew
  readonly store: CrewStore
  readonly nowMs: number
}

/** Notes on every look of a morning who is told of it. */
async function noteTold(
  { day, looks }: Morning,
  visits: readonly KeptVisits[],
  { crew, store, nowMs }: Within,
): Promise<void> {
  for (const { due, turn } of looks) {
    const id = Number(due.plan)
    const plan = (await store.visits.get(id))?.plan ?? visits.find((one) => one.id === id)?.plan
    if (plan === undefined) throw new RangeError('A look was told of that is not there')
    const to = turn === 'lead' ? 'lead' : 'owner'
    await store.visits.update(id, { plan: told(plan, { look: due.look.id, on: day, to }, crew) }, nowMs)
  }
}

function told(
  plan: LookPlan,
  reminder: { readonly look: string; readonly on: string; readonly to: 'owner' | 'lead' },
  crew: Crew,
): LookPlan {
  const step = next(plan, { kind: 'reminded', ...reminder }, crewDaysOf(crew))
  return step.ok ? step.value : plan
}

async function planMessage(
  { person, day, key, atMs }: Morning,
  { crew, store, nowMs }: Within,
): Promise<void> {
  const personId = Number(person)
  const message = await morningMessage({ crew, store, person: { id: personId }, today: day })
  if (message === null) return
  await store.deliveries.plan({ personId, ...message, nonce: nonceOf(crew, key), dueAtMs: atMs }, nowMs)
}

const nonceOf = ({ id }: Crew, key: string) => `${id}-${key}`

/** Keys of today's messages that are planned already. */
async function sentToday(
  crew: Crew,
  store: CrewStore,
  people: readonly Person[],
  today: string,
): Promise<ReadonlySet<string>> {
  const keys = people.map(({ id }) => `recheck:${id}:${today}`)
  const known = await store.deliveries.list(keys.map((key) => nonceOf(crew, key)))
  return new Set(keys.filter((key) => known.some(({ nonce }) => nonce === nonceOf(crew, key))))
}
