import type { Day } from '#src/label/day.ts'
import { addDays } from '#src/label/day.ts'
import type { Result } from '#src/quantity/result.ts'
import { fail, ok } from '#src/quantity/result.ts'
import type { CrewDays } from './place.ts'
import type { Look, LookPlan, LookStatus } from './plan.ts'
import { isPlanned } from './plan.ts'
import { makeRoom } from './room.ts'
import { isWorkday, workdayFrom } from './workdays.ts'

/** What happens to a look. `by` and `to` are people. */
export type LookEvent =
  | { readonly kind: 'looked'; readonly look: string; readonly on: Day; readonly by: string }
  | {
      readonly kind: 'skipped'
      readonly look: string
      readonly on: Day
      readonly by: string
      readonly reason: string
    }
  | { readonly kind: 'moved'; readonly look: string; readonly to: Day }
  | { readonly kind: 'handed-over'; readonly look: string; readonly to: string }
  | { readonly kind: 'reminded'; readonly look: string; readonly on: Day; readonly to: 'owner' | 'lead' }

/** Why an event does not fit the plan. */
export type LookProblem =
  | { readonly kind: 'unknown-look'; readonly look: string }
  | { readonly kind: 'closed'; readonly status: LookStatus }
  | { readonly kind: 'before-treatment'; readonly treatedOn: Day }
  | { readonly kind: 'too-early'; readonly from: Day }
  | { readonly kind: 'reason-needed' }
  | { readonly kind: 'day-off'; readonly next: Day | null }
  | { readonly kind: 'before-earlier-look'; readonly earliest: Day }
  | { readonly kind: 'before-interval'; readonly notBefore: Day }

type Step = Result<LookPlan, LookProblem>

/** The plan after an event; the plan given is never changed. */
export function next(plan: LookPlan, event: LookEvent, crew: CrewDays): Step {
  const at = plan.looks.findIndex(({ id }) => id === event.look)
  const look = plan.looks[at]
  if (look === undefined) return fail({ kind: 'unknown-look', look: event.look })
  if (!isPlanned(look)) return fail({ kind: 'closed', status: look.status })
  switch (event.kind) {
    case 'looked':
      return closeLooked(plan, at, event)
    case 'skipped':
      return event.reason.trim() === ''
        ? fail({ kind: 'reason-needed' })
        : ok(
            replaceLook(plan, at, {
              ...look,
              status: { kind: 'skipped', on: event.on, by: event.by, reason: event.reason.trim() },
            }),
          )
    case 'moved':
      return moveLook({ plan, at, look }, event.to, crew)
    case 'handed-over':
      return ok(replaceLook(plan, at, { ...look, handedTo: event.to, reminders: [] }))
    case 'reminded':
      return ok(
        replaceLook(plan, at, { ...look, reminders: [...look.reminders, { on: event.on, to: event.to }] }),
      )
  }
}

function replaceLook(plan: LookPlan, at: number, look: Look): LookPlan {
  return { ...plan, looks: plan.looks.map((other, index) => (index === at ? look : other)) }
}

/** A look that was taken closes every earlier one that was not: nobody goes back in time. */
function closeLooked(plan: LookPlan, at: number, event: Extract<LookEvent, { kind: 'looked' }>): Step {
  const { on, by } = event
  if (on < plan.treatedOn) return fail({ kind: 'before-treatment', treatedOn: plan.treatedOn })
  const from = plan.looks[at]?.from ?? on
  if (on < from) return fail({ kind: 'too-early', from })
  const looks = plan.looks.map((look, index): Look => {
    if (index === at) return endedOn({ ...look, status: { kind: 'looked', on, by } }, on)
    if (index > at || !isPlanned(look)) return look
    return { ...look, status: { kind: 'overtaken', on, by, lookId: event.look } }
  })
  return ok({ ...plan, looks })
}

/** Taken inside its window, it frees the rest of the window for the next look. */
function endedOn(look: Look, on: Day): Look {
  const isInside = look.from <= on && on <= look.to
  return isInside ? { ...look, to: on, visitOn: on } : look
}

interface Target {
  readonly plan: LookPlan
  readonly at: number
  readonly look: Look
}

/** To a workday after the earlier look, and not before the interval for the look that decides; later looks give way. */
function moveLook({ plan, at, look }: Target, to: Day, crew: CrewDays): Step {
  const before = plan.looks[at - 1]
  const earliest = addDays(before === undefined ? plan.treatedOn : before.to, 1)
  if (to < earliest) return fail({ kind: 'before-earlier-look', earliest })
  if (look.purpose === 'decide' && plan.notBefore !== undefined && to < plan.notBefore)
    return fail({ kind: 'before-interval', notBefore: plan.notBefore })
  if (!isWorkday(to, crew.workdays)) return fail({ kind: 'day-off', next: workdayFrom(to, crew.workdays) })
  const moved: Look = {
    ...look,
    visitOn: to,
    from: to < look.from ? to : look.from,
    to: to > look.to ? to : look.to,
    reminders: [],
  }
  const looks = makeRoom([...plan.looks.slice(0, at), moved], plan.looks.slice(at + 1), crew)
  return ok({ ...plan, looks })
}
