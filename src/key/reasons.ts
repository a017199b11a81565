import { addLogChances, type Evidence, fitOf } from './evidence.ts'
import type { Model } from './model.ts'
import type { Posterior } from './posterior.ts'
import type { Cell } from './schema.ts'
import type { Answer } from './walk.ts'

/**
 * One answer as it bears on a plant. `strength`: natural log of how much better (or worse) this plant explains the
 * answer than the other plants that were still possible; 2.3 is about ten times. `expected`: what the table lists.
 */
export type Reason = {
  readonly character: string
  readonly answer: Answer
  readonly expected: Cell
  readonly strength: number
}

/** What spoke for a plant and what against it, the strongest first. */
export function reasonsFor(
  model: Model,
  posterior: Posterior,
  taxon: number,
): { readonly spokeFor: Reason[]; readonly spokeAgainst: Reason[] } {
  const reasons = posterior.evidence.map((one) => ({ one, reason: reasonOf(model, one, taxon) }))
  const fits = (one: Evidence) => fitOf(one, model.key.taxa[taxon]?.cells[one.compiled.character.id])
  const spokeFor = reasons.filter(({ one }) => fits(one) === 'fits').map(({ reason }) => reason)
  const spokeAgainst = reasons.filter(({ one }) => fits(one) === 'clash').map(({ reason }) => reason)
  return {
    spokeFor: spokeFor.sort((a, b) => b.strength - a.strength),
    spokeAgainst: spokeAgainst.sort((a, b) => a.strength - b.strength),
  }
}

function reasonOf(model: Model, one: Evidence, taxon: number): Reason {
  const logs = logChances(model, one)
  const others = logs.filter((_, index) => index !== taxon)
  const mean = others.reduce((sum, log) => sum + Math.exp(log), 0) / Math.max(others.length, 1)
  return {
    character: one.compiled.character.id,
    answer: one.answer,
    expected: model.key.taxa[taxon]?.cells[one.compiled.character.id] ?? { kind: 'blank' },
    strength: (logs[taxon] ?? 0) - Math.log(Math.max(mean, 1e-9)),
  }
}

function logChances(model: Model, one: Evidence): Float64Array {
  const logs = new Float64Array(model.key.taxa.length)
  addLogChances(one, one.compiled.chances, logs, 1)
  return logs
}

const OFFERED_AGAIN = 2

/** The answers without which some plant would explain the rest best, the most suspicious first. */
export function likelyWrong(model: Model, posterior: Posterior): Reason[] {
  const best = Math.max(...posterior.logLikelihood)
  const top = posterior.logLikelihood.indexOf(best)
  return posterior.evidence
    .map((one) => {
      const logs = logChances(model, one)
      const without = posterior.logLikelihood.map((log, index) => log - (logs[index] ?? 0))
      return { one, gain: Math.max(...without) - best, top: without.indexOf(Math.max(...without)) }
    })
    .filter(({ one, top: plant }) => {
      const id = one.compiled.character.id
      return [plant, top].some((index) => fitOf(one, model.key.taxa[index]?.cells[id]) === 'clash')
    })
    .sort((a, b) => b.gain - a.gain)
    .slice(0, OFFERED_AGAIN)
    .map(({ one, top: plant }) => reasonOf(model, one, plant))
}
