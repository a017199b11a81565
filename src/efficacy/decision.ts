import type { Day } from '#src/label/day.ts'
import { addDays, daysBetween, laterOf } from '#src/label/day.ts'
import type { Ceiling, Reason, Verdict, YearLeft } from '#src/label/verdict.ts'
import { compareOutcomes } from '#src/label/verdict.ts'
import { contradictions } from './contradict.ts'
import type { PlotSummary } from './control.ts'
import type { DecideSettings } from './decide-settings.ts'
import { decideDefaults } from './decide-settings.ts'
import type { Judged } from './judge.ts'
import { figuresOf, pointsGained } from './shown.ts'
import type { Rated } from './trend.ts'
import { lastTwo, ratedOf } from './trend.ts'
import { earlyReasons, movingReasons, newestOf, notDone } from './waits.ts'
import { why } from './why.ts'

export interface DecisionInput {
  readonly today: Day
  /** Visits since the last application, in any order. */
  readonly judged: readonly Judged[]
  /** First day on which this weed's group can be judged, and when the next look is planned. */
  readonly schedule: { readonly judgeFrom: Day; readonly nextLook: Day | null }
  /** What the label says to the same again on this ground on a day, today or later. */
  readonly label: { readonly on: Day; readonly verdict: Verdict }
  /** Is there doubt that the weed is what it was named? */
  readonly identityDoubtful: boolean
  readonly settings?: DecideSettings
}

interface Shared {
  /** The strictest first. The label's own reasons carry its line. */
  readonly reasons: readonly Reason[]
  /** The last visit that could be judged. */
  readonly latest: { readonly on: Day; readonly day: number; readonly control: PlotSummary } | null
  /** First day that the label leaves open, whatever is decided; null when no day can be told. */
  readonly labelOpensOn: Day | null
}

/** Whether a second application is called for. Five ways, each with its figures and reasons. */
export type Decision =
  | (Shared & { readonly kind: 'done'; readonly outcome: 'answer' | 'heads-up' })
  | (Shared & { readonly kind: 'wait'; readonly outcome: 'answer' | 'heads-up'; readonly until: Day })
  | (Shared & {
      readonly kind: 'allowed'
      readonly outcome: 'answer' | 'heads-up'
      readonly from: Day
      readonly ceilings: readonly Ceiling[]
      readonly leftThisYear: readonly YearLeft[]
    })
  | (Shared & { readonly kind: 'hold'; readonly outcome: 'hold' })
  | (Shared & { readonly kind: 'refusal'; readonly outcome: 'refusal' })

/**
 * Decides on a second application. Nothing is allowed that the label refuses, holds or asks about; nothing on the first
 * look, before the group can be judged, while control still rises, on an old visit, or when visits contradict.
 * @throws RangeError when the label was asked for a day that is over
 */
export function decideSecond(input: DecisionInput): Decision {
  if (input.label.on < input.today)
    throw new RangeError(`Cannot decide on ${input.today} by what the label allows on ${input.label.on}`)
  const settings = input.settings ?? decideDefaults
  const rated = ratedOf(input.judged)
  const [last, before] = lastTwo(rated)
  const shared = sharedOf(input, last)
  const injured = injuryReasons(input, 'heads-up', settings)
  const early = earlyReasons(input.judged, last, input.schedule.judgeFrom)
  if (last === undefined || early.length > 0) return waitFor([...early, ...injured], input, shared)
  const doubts = contradictions(rated, settings)
  const hurt = injuryReasons(input, 'hold', settings)
  if (doubts.length > 0) return holdOrRefuse([...doubts, ...hurt], input, shared)
  const moving = movingReasons(last, before, settings)
  if (moving.length > 0) return waitFor([...moving, ...injured], input, shared)
  const remaining = notDone(last, settings)
  if (remaining.length === 0)
    return { ...shared, kind: 'done', ...inOrder([why('answer', 'controlled', figuresOf(last)), ...injured]) }
  if (daysBetween(last.on, input.today) > settings.freshDays)
    return waitFor(
      [...remaining, why('answer', 'stale', { day: { day: last.on } }), ...injured],
      input,
      shared,
    )
  const holds = [...hurt, ...(input.identityDoubtful ? [why('hold', 'identity')] : [])]
  const isStopped = holds.length > 0 || compareOutcomes(input.label.verdict.outcome, 'heads-up') > 0
  if (isStopped) return holdOrRefuse([...remaining, ...holds], input, shared)
  const steady = why('answer', 'steady', { change: pointsGained(last, before) })
  return allow([...remaining, steady], input, shared)
}

type Common = Pick<Shared, 'latest' | 'labelOpensOn'>

function sharedOf({ label }: DecisionInput, last: Rated | undefined): Common {
  return {
    latest: last === undefined ? null : { on: last.on, day: last.day, control: last.control },
    labelOpensOn: label.verdict.earliestNext,
  }
}

/** The newest look at the turf counts, whether or not the weed could be judged on it. */
function injuryReasons(
  { judged }: DecisionInput,
  outcome: 'hold' | 'heads-up',
  { leastInjuryStep }: DecideSettings,
): readonly Reason[] {
  const newest = newestOf(judged)
  if (newest === undefined) return []
  const worst = Math.min(...judged.filter(({ day }) => day === newest.day).map(({ injury }) => injury))
  return worst < leastInjuryStep ? [why(outcome, 'injury', { step: worst, least: leastInjuryStep })] : []
}

/** Until the next look; until the group can be judged, where that comes later. */
function waitFor(reasons: readonly Reason[], input: DecisionInput, shared: Common): Decision {
  const { today, schedule, settings = decideDefaults } = input
  const planned = schedule.nextLook ?? addDays(today, settings.lookAgainDays)
  const until = laterOf(laterOf(planned, schedule.judgeFrom), today)
  return { ...shared, kind: 'wait', until, ...inOrder(reasons) }
}

/** A refusal when the label refuses, else a hold. Nothing that the label says is left out. */
function holdOrRefuse(reasons: readonly Reason[], { label }: DecisionInput, shared: Common): Decision {
  const all = inOrder([...label.verdict.reasons, ...reasons])
  return label.verdict.outcome === 'refusal'
    ? { ...shared, ...all, kind: 'refusal', outcome: 'refusal' }
    : { ...shared, ...all, kind: 'hold', outcome: 'hold' }
}

function allow(reasons: readonly Reason[], input: DecisionInput, shared: Common): Decision {
  const { verdict, on } = input.label
  const { ceilings, leftThisYear, earliestNext } = verdict
  const from = laterOf(laterOf(on, input.today), earliestNext ?? on)
  return {
    ...shared,
    kind: 'allowed',
    from,
    ceilings,
    leftThisYear,
    ...inOrder([...verdict.reasons, ...reasons]),
  }
}

/** Reasons with the strictest first, and whether one of them asks for attention. */
function inOrder(reasons: readonly Reason[]): {
  readonly reasons: readonly Reason[]
  readonly outcome: 'answer' | 'heads-up'
} {
  const sorted = [...reasons].sort((a, b) => compareOutcomes(b.outcome, a.outcome))
  return {
    reasons: sorted,
    outcome: sorted.some(({ outcome }) => outcome === 'heads-up') ? 'heads-up' : 'answer',
  }
}
