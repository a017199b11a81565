import { type Reply, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { walkById } from '#src/identify/keep.ts'
import { lookAgain } from '#src/identify/remind.ts'
import type { Day } from '#src/label/day.ts'
import { type DueLook, listDue } from '#src/recheck/due.ts'
import { isAway } from '#src/recheck/remind.ts'
import { workdaysBetween } from '#src/recheck/workdays.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { Crew } from '#src/store/crews.ts'
import type { Person } from '#src/store/people.ts'
import type { KeptVisits } from '#src/store/visits.ts'
import { crewDaysOf } from './crew-days.ts'
import { dueReply } from './due-list.ts'
import { lookCard } from './look-card.ts'
import { LOOKS } from './looks.ts'
import { openVisit } from './open-visit.ts'
import { ownedPlan } from './owned-plans.ts'

/** Who a morning's message goes to, among whom, on which day. */
export interface Hearing {
  readonly crew: Crew
  readonly store: CrewStore
  readonly person: Pick<Person, 'id'>
  readonly today: Day
}

/**
 * Who hears what nobody answers: a lead with a license where there is one, another lead while that one is off for
 * longer than an answer is waited for; the first person where nobody leads.
 */
export function leadOf(
  people: readonly Person[],
  { crew, today }: Pick<Hearing, 'crew' | 'today'>,
): Person | undefined {
  const leads = people.filter((one) => one.leads)
  const hasLicense = ({ settings }: Person) => settings.license !== null
  const inTurn = [...leads.filter(hasLicense), ...leads.filter((one) => !hasLicense(one))]
  const others = crew.settings.workdays
  const isHere = (one: Person) =>
    !isAway({ to: today }, today, { owner: crewDaysOf(crew, one).workdays, others })
  return inTurn.find(isHere) ?? inTurn[0] ?? people[0]
}

/** A message, and the command under which its presses go on. */
export interface MorningMessage {
  readonly command: string
  readonly reply: Reply
}

/**
 * What one person reads in the morning: everything that is theirs and open by then, so that a message that was held up
 * says what is true when it leaves. A single look opens right there, with its form; several are a list with a press for
 * each. Null when nothing is open any more.
 * @param command when the message is planned already, the command that it was planned for
 */
export async function morningMessage(hearing: Hearing, command?: string): Promise<MorningMessage | null> {
  const { store, today } = hearing
  const visits = await store.visits.listOpen(today)
  const people = await store.people.list()
  const due = listDue(visits.map(ownedPlan), today, { states: ['due', 'overdue'] }).filter((one) =>
    hears(one, hearing, people),
  )
  const [only, ...others] = due
  if (only === undefined) return null
  const one = others.length > 0 ? null : await singleLook(only, visits, hearing)
  const said = (command === undefined || one?.command === command ? one : null) ?? {
    command: LOOKS,
    reply: await dueReply(say('visits.due', { count: due.length }), due, visits, { store }),
  }
  const { title, ...parts } = said.reply
  const lines = [...notesOn(due, hearing, people), ...parts.lines]
  return { command: said.command, reply: reply('question', title, { ...parts, lines, audience: 'person' }) }
}

/**
 * Their own look; or, for the lead, one that nobody has answered, or whose owner is off or has left the crew. What has
 * gone to one lead is every lead's to hear, so that it is not lost when another is back before it leaves.
 */
function hears(due: DueLook, hearing: Hearing, people: readonly Person[]): boolean {
  const me = String(hearing.person.id)
  if (due.person === me) return true
  const owner = people.find(({ id }) => String(id) === due.person)
  const isTold = due.look.reminders.at(-1)?.to === 'lead'
  if (isTold && people.some(({ id, leads }) => leads && String(id) === me)) return true
  const isForLead = owner === undefined || isTold || isOff(due, owner, hearing)
  return isForLead && String(leadOf(people, hearing)?.id) === me
}

const isOff = ({ look }: DueLook, owner: Person, { crew, today }: Hearing) =>
  isAway(look, today, {
    owner: crewDaysOf(crew, owner).workdays,
    others: crew.settings.workdays,
  })

function notesOn(due: readonly DueLook[], hearing: Hearing, people: readonly Person[]): Text[] {
  const { crew, person: me } = hearing
  const { workdays } = crew.settings
  const isLate = due.some(({ look: { visitOn, reminders } }) => {
    const [first, ...more] = reminders
    return first !== undefined && more.length === 0 && workdaysBetween(visitOn, first.on, workdays) > 0
  })
  const isAgain = due.some(
    ({ look: { reminders } }) => reminders.length === 2 && reminders[1]?.to === 'owner',
  )
  const silent = due.filter(({ look }) => look.reminders.at(-1)?.to === 'lead').map(({ person }) => person)
  const names = people.filter(({ id }) => silent.includes(String(id))).map(({ name }) => name)
  const off = people
    .filter(({ id }) => id !== me.id)
    .filter((one) => due.some((each) => each.person === String(one.id) && isOff(each, one, hearing)))
    .map(({ name }) => name)
  return [
    ...(isLate ? [say('visits.summary')] : []),
    ...(isAgain ? [say('visits.again')] : []),
    ...(names.length === 0 ? [] : [say('visits.unanswered', { people: { all: names } })]),
    ...(off.length === 0 ? [] : [say('own-days.away', { people: { all: off } })]),
  ]
}

/** Its own form; at a held plant, the key's own question. */
async function singleLook(
  { plan }: DueLook,
  visits: readonly KeptVisits[],
  { store, today }: Hearing,
): Promise<MorningMessage | null> {
  const kept = visits.find(({ id }) => String(id) === plan)
  if (kept === undefined) return null
  if (kept.walkId !== null) {
    const walk = await walkById(kept.walkId, { store })
    return walk === null ? null : { command: 'key', reply: await lookAgain(walk, { store, today }) }
  }
  const open = await openVisit(kept.id, { store })
  return open.ok ? { command: LOOKS, reply: lookCard(open.value, today) } : null
}
