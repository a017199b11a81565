import type { Day } from '#src/label/day.ts'
import { addDays } from '#src/label/day.ts'
import type { DueLook, OwnedPlan } from './due.ts'
import { listDue } from './due.ts'
import type { Look } from './plan.ts'
import type { WorkTime, ZoneTime } from './when.ts'
import { sendMoment } from './when.ts'
import type { Workdays } from './workdays.ts'
import { workdayFrom, workdaysBetween } from './workdays.ts'

export interface RemindSettings {
  /** Workdays without an answer after which the owner is asked again, and then the lead. */
  readonly againAfterWorkdays: number
}

/** Common practice, no source. */
export const remindDefaults: RemindSettings = { againAfterWorkdays: 2 }

/** Whose turn it is to hear of an open look on a day: the owner, once more the owner, then once a lead, then nobody. */
export type Turn = 'owner' | 'owner-again' | 'lead'

/** Who is reminded of this look on this day; null when it is not yet time, or everybody has been. */
export function turnOf(
  look: Pick<Look, 'visitOn' | 'reminders'>,
  today: Day,
  {
    workdays,
    settings = remindDefaults,
  }: { readonly workdays: Workdays; readonly settings?: RemindSettings },
): Turn | null {
  const last = look.reminders.at(-1)
  if (last === undefined) return look.visitOn <= today ? 'owner' : null
  if (last.to === 'lead') return null
  if (workdaysBetween(last.on, today, workdays) < settings.againAfterWorkdays) return null
  return look.reminders.length < 2 ? 'owner-again' : 'lead'
}

/**
 * Is whoever owns this look off until after its window, and for longer than an answer is waited for?
 * @param others days of those who are at work meanwhile
 */
export function isAway(
  { to }: Pick<Look, 'to'>,
  today: Day,
  days: { readonly owner: Workdays; readonly others: Workdays },
  { againAfterWorkdays }: RemindSettings = remindDefaults,
): boolean {
  const back = workdayFrom(today, days.owner)
  if (back === null) return true
  return back > to && workdaysBetween(today, back, days.others) > againAfterWorkdays
}

/** A person who can be reached, or the lead who answers for whoever cannot. */
export interface Reached {
  readonly person: string
  readonly work: WorkTime
}

export interface Crewed {
  readonly people: readonly Reached[]
  /** Who hears of looks that nobody answers. */
  readonly lead: string
  readonly settings?: RemindSettings
  /** Keys of messages that are out already: who had one today hears the rest on the next workday. */
  readonly sentKeys?: ReadonlySet<string>
}

/** One message for one person and morning, with everything in it. */
export interface Morning {
  readonly person: string
  readonly day: Day
  readonly atMs: number
  /** `summary` when a morning was missed: everything since then at once. */
  readonly kind: 'morning' | 'summary'
  readonly looks: readonly { readonly due: DueLook; readonly turn: Turn }[]
  /** The same for the same person and day, however often it is planned. */
  readonly key: string
}

/**
 * The messages that stand to be sent, from what is open now: at most one a person, however long nothing was sent.
 * A look of somebody who is no longer with the crew, or is off until it is too late, goes to the lead.
 */
export function planMornings(
  plans: readonly OwnedPlan[],
  { people, lead, settings = remindDefaults, sentKeys = new Set() }: Crewed,
  at: { readonly nowMs: number; readonly time: ZoneTime },
): readonly Morning[] {
  const reached = new Map(people.map((one) => [one.person, one]))
  return people.flatMap((one) => {
    const slot = slotOf(one, sentKeys, at)
    if (slot === null) return []
    const { person, work } = one
    const looks = listDue(plans, slot.day, { states: ['due', 'overdue'] }).flatMap((due) => {
      const owner = reached.get(due.person)
      const turn = turnOf(due.look, slot.day, { workdays: (owner ?? one).work.workdays, settings })
      if (turn === null) return []
      const isOff =
        owner !== undefined &&
        isAway(due.look, slot.day, { owner: owner.work.workdays, others: work.workdays }, settings)
      const hears = turn === 'lead' || owner === undefined || isOff ? lead : due.person
      return hears === person ? [{ due, turn }] : []
    })
    if (looks.length === 0) return []
    const kind = isLate(looks, slot.day, work.workdays) ? 'summary' : 'morning'
    return [{ person, ...slot, kind, looks }]
  })
}

type Slot = Pick<Morning, 'day' | 'atMs' | 'key'>

/** When a person can hear next, given what went out to them already. */
function slotOf(
  { person, work }: Reached,
  sentKeys: ReadonlySet<string>,
  at: { readonly nowMs: number; readonly time: ZoneTime },
): Slot | null {
  let from = at.time.dayIn(work.zone, at.nowMs)
  for (;;) {
    const atMs = sendMoment(work, from, at)
    if (atMs === null) return null
    const day = at.time.dayIn(work.zone, atMs)
    const key = `recheck:${person}:${day}`
    if (!sentKeys.has(key)) return { day, atMs, key }
    from = addDays(day, 1)
  }
}

/** Has a first reminder stood over for at least one morning of work? */
function isLate(
  looks: readonly { readonly due: DueLook; readonly turn: Turn }[],
  day: Day,
  workdays: Workdays,
): boolean {
  return looks.some(
    ({ due, turn }) => turn === 'owner' && workdaysBetween(due.look.visitOn, day, workdays) > 0,
  )
}
