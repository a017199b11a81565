import type { Job, JobOutcome, Mix, MixOutcome } from '#src/calculator/mix/outcome.ts'
import type { Ready } from '../ready.ts'
import type { JudgedPart } from './part.ts'

/** A product of the tank with its amount. */
export interface Planned {
  readonly part: JudgedPart
  readonly ready: Ready
  readonly outcome: Extract<MixOutcome | JobOutcome, { outcome: 'answer' }>
}

/** The whole job, where ground was given instead of a filling. */
export const jobOf = (outcome: Planned['outcome']): Job | null => ('job' in outcome ? outcome.job : null)
/** One filling; of a job the first, full one. */
export const mixOf = (outcome: Planned['outcome']): Mix =>
  'job' in outcome ? outcome.job.groups[0].mix : outcome.mix
