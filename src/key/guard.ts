import { type Evidence, fitOf, isDecisive } from './evidence.ts'
import type { Model } from './model.ts'
import type { Posterior } from './posterior.ts'
import { shareOf, type Unit } from './units.ts'

/** How far a turf that could be here is ruled out. */
export type GuardCheck = {
  readonly turf: number
  readonly ruledOut: boolean
  /** Log of how much more probable the turf still is than allowed; 0 or less when it is enough. */
  readonly missing: number
}

/**
 * Whether a turf is ruled out in favor of a name: by at least two independent characters or a decisive one that it
 * does not show, and by the odds. Answers that the turf may give can never rule it out, however well another plant
 * fits them.
 */
export function checkTurf(model: Model, posterior: Posterior, unit: Unit, turf: number): GuardCheck {
  const named = shareOf(unit, posterior.share)
  const odds = named / Math.max(posterior.share[turf] ?? 0, 1e-300)
  const missing = Math.log(model.settings.guardOdds) - Math.log(odds)
  return { turf, ruledOut: missing <= 0 && isContradicted(model, posterior.evidence, turf), missing }
}

/** Two independent characters that this plant does not show (a cell from memory counts half), or a decisive one. */
export function isContradicted(model: Model, evidence: readonly Evidence[], taxon: number): boolean {
  const cells = model.key.taxa[taxon]?.cells ?? {}
  const families = new Map<string, number>()
  for (const one of evidence) {
    const { character } = one.compiled
    const cell = cells[character.id]
    if (character.reliability === 'weak' || fitOf(one, cell) !== 'clash') continue
    if (isDecisive(one, cell)) return true
    const weight = cell?.kind === 'states' || cell?.kind === 'range' ? (cell.memory ? 0.5 : 1) : 1
    families.set(character.family, Math.max(weight, families.get(character.family) ?? 0))
  }
  return [...families.values()].reduce((sum, weight) => sum + weight, 0) >= 1.5 && families.size >= 2
}
