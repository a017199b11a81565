import type { Day } from '#src/label/day.ts'
import { addDays } from '#src/label/day.ts'
import type { CrewDays } from './place.ts'
import { placeWindow } from './place.ts'
import type { Look, LookPlan } from './plan.ts'
import { isPlanned } from './plan.ts'
import { makeRoom } from './room.ts'

/** A visit that answered a look, and whether it told anything about the weed. */
export interface Visited {
  readonly look: string
  readonly on: Day
  readonly isJudged: boolean
}

/** About a week, and some days to fit it in; common practice, no source. */
const AFTER_DAYS = 7
const SPAN_DAYS = 3

/**
 * The plan after a visit that could not be judged: its question comes again in about a week. A look that stands so soon
 * anyway takes the question along; else one of its own is put in, and later looks give way. Does nothing for the first
 * look, which judges no weed, and takes the new look out again when the same day's visit could be judged after all.
 */
export function lookAgain(plan: LookPlan, { look: id, on, isJudged }: Visited, crew: CrewDays): LookPlan {
  const at = plan.looks.findIndex((look) => look.id === id)
  const taken = plan.looks[at]
  if (taken === undefined || taken.purpose === 'signs') return plan
  const made = plan.looks.find((look) => look.again === on && isPlanned(look))
  if (isJudged) return made?.id === againId(taken) ? without(plan, made) : plan
  if (made !== undefined) return plan
  const later = plan.looks.find((look, index) => index > at && isPlanned(look))
  const isSoon = later !== undefined && later.visitOn <= addDays(on, AFTER_DAYS + SPAN_DAYS)
  return isSoon ? askAlong(plan, taken, { later, on }) : putIn(plan, at, { taken, on, crew })
}

const againId = ({ id }: Look) => `${id}-again`

const without = (plan: LookPlan, gone: Look): LookPlan => ({
  ...plan,
  looks: plan.looks.filter((look) => look !== gone),
})

/** Whoever goes there soon anyway answers for both. */
function askAlong(
  plan: LookPlan,
  taken: Look,
  { later, on }: { readonly later: Look; readonly on: Day },
): LookPlan {
  const asked: Look = {
    ...later,
    purpose: taken.purpose === 'decide' ? 'decide' : later.purpose,
    lookFor: [...new Set([...taken.lookFor, ...later.lookFor])],
    again: on,
  }
  return { ...plan, looks: plan.looks.map((look) => (look === later ? asked : look)) }
}

/** Its window begins the next day, so that a visit that comes sooner answers it as well. */
function putIn(
  plan: LookPlan,
  at: number,
  { taken, on, crew }: { readonly taken: Look; readonly on: Day; readonly crew: CrewDays },
): LookPlan {
  const { handedTo } = taken
  const placed = placeWindow(addDays(on, AFTER_DAYS), addDays(on, AFTER_DAYS + SPAN_DAYS), crew)
  const look: Look = {
    id: againId(taken),
    purpose: taken.purpose,
    ...placed,
    from: addDays(on, 1),
    lookFor: taken.lookFor,
    ...(handedTo === undefined ? {} : { handedTo }),
    status: { kind: 'planned' },
    reminders: [],
    again: on,
  }
  return { ...plan, looks: makeRoom([...plan.looks.slice(0, at + 1), look], plan.looks.slice(at + 1), crew) }
}
