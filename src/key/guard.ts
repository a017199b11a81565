import { type Evidence, fitOf, isDecisive } from './evidence.ts'
import type { Model } from './model.ts'
import type { Posterior } from './posterior.ts'
import type { Cell } from './schema.ts'
import { shareOf, type Unit } from './units.ts'

/** How far a turf that could be here is ruled out. */
export type GuardCheck = {
  readonly turf: number
  readonly ruledOut: boolean
  /** Log of how much more probable the turf still is than allowed; 0 or less when it is enough. */
  readonly missing: number
}

/**
 * Whether a turf is ruled out in favor of a name: by at least two independent characters that it does not show, or by
 * a decisive one and then by higher odds. Answers that the turf may give can never rule it out, however well another
 * plant fits them.
 */
export function checkTurf(model: Model, posterior: Posterior, unit: Unit, turf: number): GuardCheck {
  const { guardOdds, decisiveOdds } = model.settings
  const found = contradictionOf(model, posterior.evidence, turf)
  const needed = found === 'decisive' ? guardOdds * decisiveOdds : guardOdds
  const odds = shareOf(unit, posterior.share) / Math.max(posterior.share[turf] ?? 0, 1e-300)
  const missing = Math.log(needed) - Math.log(odds) + (posterior.benefitOfDoubt.get(turf) ?? 0)
  return { turf, ruledOut: missing <= 0 && found !== 'none', missing }
}

export type Contradiction = 'none' | 'decisive' | 'several'

/**
 * Whether the answers contradict a plant in several independent characters, or in a decisive one alone. Only cells
 * that were looked up count in full: a cell from memory may be wrong, a printed range is stretched by feeding and
 * mowing.
 */
export function contradictionOf(model: Model, evidence: readonly Evidence[], taxon: number): Contradiction {
  const cells = model.key.taxa[taxon]?.cells ?? {}
  const families = new Map<string, number>()
  let decisive = false
  for (const one of evidence) {
    const { character } = one.compiled
    const cell = cells[character.id]
    if (character.reliability === 'weak' || fitOf(one, cell) !== 'clash') continue
    decisive ||= isDecisive(one, cell)
    families.set(character.family, Math.max(weightOf(cell), families.get(character.family) ?? 0))
  }
  const weight = [...families.values()].reduce((sum, each) => sum + each, 0)
  if (families.size >= 2 && weight >= 1.5) return 'several'
  return decisive ? 'decisive' : 'none'
}

function weightOf(cell: Cell | undefined): number {
  if (cell?.kind === 'range') return cell.memory ? 0.25 : 0.5
  return cell?.kind === 'states' && cell.memory ? 0.5 : 1
}
