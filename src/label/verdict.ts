import type { Outcome } from '#src/conversation/reply.ts'
import type { Param } from '#src/conversation/text.ts'
import type { AreaRate, Rate } from '#src/quantity/rate.ts'
import type { Day } from './day.ts'
import type { ReasonId } from './ids.ts'
import type { Printed } from './printed.ts'
import { sourceOf } from './printed.ts'
import type { RateLine } from './rate-line.ts'

/** One thing that speaks on the question: how much it weighs, and the label's own line where there is one. */
export interface Reason {
  readonly id: string
  readonly outcome: Outcome
  /** The label's own words. */
  readonly line?: string
  readonly page?: string
  readonly with: Readonly<Record<string, Param>>
}

/** The most that may go on: one limit, in each unit in which the label prints it. */
export interface Ceiling {
  readonly why: 'rate-line' | 'per-application' | 'left-this-year'
  readonly rates: readonly Rate[]
  readonly line?: string
  readonly page?: string
}

/** What is left of one yearly limit on this ground. */
export interface YearLeft {
  readonly limit: AreaRate
  readonly used: AreaRate
  readonly left: AreaRate
  /** Name of the active when it, and not the product, is counted. */
  readonly active?: string
  /** First day on which some of what was used no longer counts; absent when nothing was used. */
  readonly freesOn?: Day
}

export interface Verdict {
  /** The strictest of the reasons; `answer` when none stands in the way. */
  readonly outcome: Outcome
  /** Every reason, the strictest first. */
  readonly reasons: readonly Reason[]
  /** Rate lines that are still possible; with more than one somebody has to choose. */
  readonly rateLines: readonly RateLine[]
  /** Limits of the amount, when one rate line is left. Each must hold; the rates of one are the same limit. */
  readonly ceilings: readonly Ceiling[]
  readonly leftThisYear: readonly YearLeft[]
  /** First day, from today on, that interval, count, yearly limit and new turf leave open; null when no day can be told. */
  readonly earliestNext: Day | null
}

const STRICTNESS: readonly Outcome[] = ['answer', 'heads-up', 'question', 'hold', 'refusal']

/** Below 0 when `a` is milder than `b`, 0 when they weigh the same. */
export function compareOutcomes(a: Outcome, b: Outcome): number {
  return STRICTNESS.indexOf(a) - STRICTNESS.indexOf(b)
}

/** The strictest outcome; `answer` when there is no reason at all. */
export function strictest(reasons: readonly Reason[]): Outcome {
  return reasons.reduce<Outcome>(
    (worst, { outcome }) => (compareOutcomes(outcome, worst) > 0 ? outcome : worst),
    'answer',
  )
}

/** A reason with the label's line and page when the label gives them. */
export function reason(
  outcome: Outcome,
  id: ReasonId,
  parameters: Readonly<Record<string, Param>> = {},
  source: Printed = {},
): Reason {
  return {
    id: `label.${id}`,
    outcome,
    with: parameters,
    ...sourceOf(source),
  }
}
