import type { Day } from '#src/label/day.ts'
import { addDays } from '#src/label/day.ts'
import type { Look, LookPlan } from './plan.ts'
import { isPlanned } from './plan.ts'

/** A plan with the places and people that it belongs to, by ids of the store. */
export interface OwnedPlan {
  readonly plan: string
  readonly site: string
  readonly area: string
  readonly owner: string
  readonly looks: LookPlan
}

/** `coming`: not yet; `due`: the day of the visit has come; `overdue`: the window is over. */
export type DueState = 'coming' | 'due' | 'overdue'

export interface DueLook {
  readonly plan: string
  readonly site: string
  readonly area: string
  /** Who is to look. */
  readonly person: string
  readonly look: Look
  readonly treatedOn: Day
  readonly state: DueState
}

export interface DueFilter {
  readonly person?: string
  readonly site?: string
  /** Only these states; all of them by default. */
  readonly states?: readonly DueState[]
  /** How many days ahead a coming look is shown. @default 0 */
  readonly daysAhead?: number
}

/** What is due on a day, the longest due first. Of one plan only the look that a visit would answer. */
export function listDue(plans: readonly OwnedPlan[], today: Day, filter: DueFilter = {}): readonly DueLook[] {
  const { person, site, daysAhead = 0, states = ['coming', 'due', 'overdue'] } = filter
  const horizon = addDays(today, daysAhead)
  return plans
    .flatMap((owned) => dueOf(owned, today))
    .filter((due) => person === undefined || due.person === person)
    .filter((due) => site === undefined || due.site === site)
    .filter((due) => states.includes(due.state) && due.look.visitOn <= horizon)
    .sort(byDay)
}

/** The one look of a plan that stands open: the last that has become due, else the next one. */
function dueOf({ plan, site, area, owner, looks }: OwnedPlan, today: Day): readonly DueLook[] {
  const open = looks.looks.filter(isPlanned)
  const look = open.filter(({ visitOn }) => visitOn <= today).at(-1) ?? open[0]
  if (look === undefined) return []
  const person = look.handedTo ?? owner
  return [{ plan, site, area, person, look, treatedOn: looks.treatedOn, state: stateOf(look, today) }]
}

export function stateOf({ visitOn, to }: Pick<Look, 'visitOn' | 'to'>, today: Day): DueState {
  if (today < visitOn) return 'coming'
  return today <= to ? 'due' : 'overdue'
}

export interface DueSummary {
  readonly due: number
  readonly overdue: number
  readonly bySite: readonly { readonly site: string; readonly looks: readonly DueLook[] }[]
}

/** What is due on one card: counted, and grouped by site, the site that has waited longest first. */
export function summarizeDue(looks: readonly DueLook[]): DueSummary {
  const waiting = looks.filter(({ state }) => state !== 'coming')
  const sites = [...new Set([...waiting].sort(byDay).map(({ site }) => site))]
  return {
    due: waiting.filter(({ state }) => state === 'due').length,
    overdue: waiting.filter(({ state }) => state === 'overdue').length,
    bySite: sites.map((site) => ({ site, looks: waiting.filter((one) => one.site === site).sort(byDay) })),
  }
}

function byDay(a: DueLook, b: DueLook): number {
  if (a.look.visitOn !== b.look.visitOn) return a.look.visitOn < b.look.visitOn ? -1 : 1
  return a.plan < b.plan ? -1 : 1
}
