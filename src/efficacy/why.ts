import type { Outcome } from '#src/conversation/reply.ts'
import type { Param } from '#src/conversation/text.ts'
import type { Reason } from '#src/label/verdict.ts'

/** Every reason of a decision that is not the label's own. Its sentence is `recheck.why-<id>` in the catalogue. */
export const whyIds = [
  'apart',
  'cannot-judge',
  'controlled',
  'disagree',
  'dropped',
  'first-look',
  'identity',
  'injury',
  'mostly-done',
  'moving',
  'no-rating',
  'not-enough',
  'one-rating',
  'plant-back',
  'seedlings',
  'stale',
  'steady',
  'too-early',
] as const
export type WhyId = (typeof whyIds)[number]

/** A reason of the same shape as the label's, so that both stand in one list. */
export function why(outcome: Outcome, id: WhyId, parameters: Readonly<Record<string, Param>> = {}): Reason {
  return { id: `recheck.why-${id}`, outcome, with: parameters }
}
