import type { Text } from '#src/conversation/text.ts'
import type { Situation } from '#src/label/situation.ts'
import type { Verdict } from '#src/label/verdict.ts'
import type { Output, Rate } from '#src/quantity/rate.ts'
import type { MixOptions } from './options.ts'
import type { Named } from './resolve.ts'
import type { Volumes } from './volumes.ts'

/** What is known about one mix when all questions are answered. */
export interface Ready {
  readonly given: MixOptions
  readonly named: Named
  readonly rate: Rate
  readonly volumes: Volumes
  readonly output: Output | undefined
  /** What to mind of the sprayer and the output. */
  readonly notes: readonly Text[]
  /** What is only told. */
  readonly told: readonly Text[]
  /** Who lifted holds for this product, area and day, and why. */
  readonly lifted: Text | null
  readonly situation: Situation
  readonly verdict: Verdict | null
}
