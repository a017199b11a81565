import { addDays, dayIn } from '#src/desk/clock.ts'
import { next } from '#src/recheck/next.ts'
import type { LookPlan } from '#src/recheck/plan.ts'
import { type Morning, planMornings } from '#src/recheck/remind.ts'
import { type CrewStore, crewStore } from '#src/store/crew-store.ts'
import { type Crew, getCrew } from '#src/store/crews.ts'
import type { Database } from '#src/store/open.ts'
import type { Person } from '#src/store/people.ts'
import { readOnly, write } from '#src/store/transaction.ts'
import { crewsWithOpenVisits, type KeptVisits } from '#src/store/visits.ts'
import { crewDaysOf, workTimeOf, zoneTime } from './crew-days.ts'
import { LOOKS } from './looks.ts'
import { leadOf, morningMessage } from './morning.ts'
import { ownedPlan } from './owned-plans.ts'

interface Planning {
  readonly database: Database
  readonly nowMs: number
  readonly reportError: (error: unknown, about: Readonly<Record<string, unknown>>) => void
}

/**
 * Plans the messages whose morning has come: one for each person, with all looks that are theirs to hear of. Message
 * and note of who has been told are written together, so that a crash leaves both or neither. One crew that fails
 * does not hold up the others.
 */
export async function planReminders({ database, nowMs, reportError }: Planning): Promise<number> {
  // Nowhere is the day further ahead than this.
  const until = addDays(dayIn('UTC', nowMs), 1)
  const crews = await readOnly(database, (db) => crewsWithOpenVisits(db, until))
  let planned = 0
  for (const id of crews)
    try {
      planned += await write(database, async (db) => {
        await database.words.lockCrew(db, id)
        const crew = await getCrew(db, id)
        return crew === undefined ? 0 : planFor(crew, crewStore(db, id), nowMs)
      })
    } catch (error) {
      reportError(error, { about: 'planning reminders', crew: id })
    }
  return planned
}

async function planFor(crew: Crew, store: CrewStore, nowMs: number): Promise<number> {
  const today = dayIn(crew.zone, nowMs)
  const visits = await store.visits.listOpen(today)
  const people = await store.people.list()
  const lead = leadOf(people)
  if (visits.length === 0 || lead === undefined) return 0
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
  return going.length
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
