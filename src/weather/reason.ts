import type { Outcome } from '#src/conversation/reply.ts'
import type { Param } from '#src/conversation/text.ts'

/** One thing that speaks on whether to spray now: how much it weighs, and the label's own line where there is one. */
export interface Reason {
  readonly id: string
  readonly outcome: Outcome
  /** The label's own words. */
  readonly line?: string
  readonly page?: string
  readonly with: Readonly<Record<string, Param>>
}

export function reason(outcome: Outcome, id: string, figures: Reason['with'] = {}): Reason {
  return { id, outcome, with: figures }
}

/** Where a label says something: its own words and the page. */
export interface PrintedAt {
  readonly line?: string
  readonly page?: string
}

/** A reason that rests on the label, with the label's words when the crew has typed them. */
export function byLabel(outcome: Outcome, id: string, figures: Reason['with'], at: PrintedAt): Reason {
  return {
    ...reason(outcome, id, figures),
    ...(at.line === undefined ? {} : { line: at.line }),
    ...(at.page === undefined ? {} : { page: at.page }),
  }
}

const STRICTNESS: readonly Outcome[] = ['answer', 'heads-up', 'question', 'hold', 'refusal']

/** The strictest outcome; `answer` when nothing speaks against it. */
export function strictestOf(reasons: readonly Reason[]): Outcome {
  const level = Math.max(0, ...reasons.map((one) => STRICTNESS.indexOf(one.outcome)))
  return STRICTNESS[level] ?? 'refusal'
}

/** Strictest first, otherwise in the order in which they were found. */
export function sortReasons(reasons: readonly Reason[]): Reason[] {
  return [...reasons].sort((a, b) => STRICTNESS.indexOf(b.outcome) - STRICTNESS.indexOf(a.outcome))
}
