import type { Reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
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
import { morningReply } from './morning.ts'
import { ownedPlan } from './owned-plans.ts'
import { LOOKS } from './steps.ts'

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
  const visits = await store.visits.listOpen(dayIn(crew.zone, nowMs))
  const people = await store.people.list()
  const lead = leadOf(people)
  if (visits.length === 0 || lead === undefined) return 0
  const waiting = await store.deliveries.waitingFor(LOOKS)
  const mornings = planMornings(
    visits.map(ownedPlan),
    {
      people: people.map(({ id }) => ({ person: String(id), work: workTimeOf(crew) })),
      lead: String(lead.id),
      sentKeys: await sentToday(crew, store, people, nowMs),
    },
    { nowMs, time: zoneTime },
  )
  // Who has not got the last one yet is not sent another on top of it.
  const due = mornings.filter(({ atMs, person }) => atMs <= nowMs && !waiting.has(Number(person)))
  const plans = new Map(visits.map((one) => [String(one.id), one.plan]))
  for (const morning of due) {
    await store.deliveries.plan(
      {
        personId: Number(morning.person),
        command: LOOKS,
        reply: await replyTo(morning, visits, store),
        nonce: nonceOf(crew, morning.key),
        dueAtMs: morning.atMs,
      },
      nowMs,
    )
    for (const { due: one, turn } of morning.looks) {
      const told = { look: one.look.id, on: morning.day, to: turn === 'lead' ? 'lead' : 'owner' } as const
      plans.set(one.plan, remindedOf(plans.get(one.plan), told, crew))
    }
  }
  for (const { id, plan } of visits) {
    const changed = plans.get(String(id))
    if (changed !== undefined && changed !== plan) await store.visits.update(id, { plan: changed }, nowMs)
  }
  return due.length
}

/** A lead with a license where there is one; the first person where nobody leads. */
function leadOf(people: readonly Person[]): Person | undefined {
  const leads = people.filter(({ leads: isLead }) => isLead)
  return leads.find(({ settings }) => settings.license !== null) ?? leads[0] ?? people[0]
}

const nonceOf = ({ id }: Crew, key: string) => `${id}-${key}`

/** Keys of today's messages that are planned already. */
async function sentToday(
  crew: Crew,
  store: CrewStore,
  people: readonly Person[],
  nowMs: number,
): Promise<ReadonlySet<string>> {
  const today = dayIn(crew.zone, nowMs)
  const keys = people.map(({ id }) => `recheck:${id}:${today}`)
  const known = await store.deliveries.list(keys.map((key) => nonceOf(crew, key)))
  return new Set(keys.filter((key) => known.some(({ nonce }) => nonce === nonceOf(crew, key))))
}

function remindedOf(
  plan: LookPlan | undefined,
  told: { readonly look: string; readonly on: string; readonly to: 'owner' | 'lead' },
  crew: Crew,
): LookPlan {
  if (plan === undefined) throw new RangeError('A look was told of that is not there')
  const step = next(plan, { kind: 'reminded', ...told }, crewDaysOf(crew))
  return step.ok ? step.value : plan
}

async function replyTo(morning: Morning, visits: readonly KeptVisits[], store: CrewStore): Promise<Reply> {
  const names = new Map((await store.people.list()).map(({ id, name }) => [String(id), name]))
  const unanswered: Text[] = morning.looks
    .filter(({ turn }) => turn === 'lead')
    .map(({ due }) => say('visits.unanswered', { person: names.get(due.person) ?? '' }))
  return morningReply(morning, visits, unanswered, store)
}
