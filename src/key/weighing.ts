import { type Model, modelOf } from './model.ts'
import { type Posterior, posteriorOf } from './posterior.ts'
import type { KeyData } from './schema.ts'
import { DEFAULT_SETTINGS } from './settings.ts'
import { type Verdict, verdictOf } from './verdict.ts'
import type { Walk } from './walk.ts'

/** The answers of a walk, weighed once: what its result, its next question and its reasons are all read from. */
export type Weighing = {
  readonly model: Model
  readonly walk: Walk
  readonly posterior: Posterior
  readonly verdict: Verdict
}

export function weighingOf(key: KeyData, walk: Walk): Weighing {
  return weigh(modelOf(key, walk.settings ?? DEFAULT_SETTINGS), walk)
}

export function weigh(model: Model, walk: Walk): Weighing {
  const posterior = posteriorOf(model, walk)
  return { model, walk, posterior, verdict: verdictOf(model, posterior) }
}
