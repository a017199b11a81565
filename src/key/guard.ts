import { type Evidence, fitOf, isDecisive } from './evidence.ts'
import type { Model } from './model.ts'
import type { Posterior } from './posterior.ts'
import type { Cell } from './schema.ts'
import { shareOf, type Unit } from './units.ts'
import { closeUpBetween, isCloseUp } from './unsplit.ts'

/** How far a turf that could be here is ruled out. */
export type GuardCheck = {
  readonly turf: number
  readonly ruledOut: boolean
  /** Log of how much more probable the turf still is than allowed; 0 or less when it is enough. */
  readonly missing: number
  /** Only a close-up can rule it out: the plain look of mown turf does not tell it from the name. */
  readonly needsCloseUp: boolean
}

/**
 * Whether a turf is ruled out in favor of a name: by at least two independent characters that it does not show, or by
 * a decisive one and then by higher odds. Answers that the turf may give can never rule it out, however well another
 * plant fits them. A name that the plain look of mown turf does not tell from this turf needs a close-up against the
 * turf: what else clashes with it is more likely a slip than the other plant.
 */
export function checkTurf(model: Model, posterior: Posterior, unit: Unit, turf: number): GuardCheck {
  const { guardOdds, decisiveOdds } = model.settings
  const alike = model.unsplit.get(turf)
  const held =
    unit.members.some((member) => alike?.has(member) === true) &&
    !closeUpAgainst(model, posterior.evidence, turf)
  const found = held ? 'none' : contradictionOf(model, posterior.evidence, turf)
  const needed = found === 'decisive' ? guardOdds * decisiveOdds : guardOdds
  const odds = shareOf(unit, posterior.share) / Math.max(posterior.share[turf] ?? 0, 1e-300)
  const missing = Math.log(needed) - Math.log(odds) + (posterior.benefitOfDoubt.get(turf) ?? 0)
  return { turf, ruledOut: missing <= 0 && found !== 'none', missing, needsCloseUp: held }
}

/** Whether a seed head, a hallmark, something dug up or looked at closely is not of this plant. */
export function closeUpAgainst(model: Model, evidence: readonly Evidence[], taxon: number): boolean {
  const cells = model.key.taxa[taxon]?.cells ?? {}
  return evidence.some(
    (one) => isCloseUp(one.compiled.character) && fitOf(one, cells[one.compiled.character.id]) === 'clash',
  )
}

/** Whether a seed head, a hallmark, something dug up or looked at closely is of this plant. */
function closeUpFor(model: Model, evidence: readonly Evidence[], taxon: number): boolean {
  const cells = model.key.taxa[taxon]?.cells ?? {}
  return evidence.some(
    (one) => isCloseUp(one.compiled.character) && fitOf(one, cells[one.compiled.character.id]) === 'fits',
  )
}

/**
 * The plants that could still be meant by what is taken for the lawn's own grass: the plain look of mown turf does not
 * tell them from it, they explain the answers nearly as well as the best, and no close-up speaks against them. Where
 * no close-up in the data tells the two apart either, one that is of the own grass leaves it to the odds.
 */
export function unsplitRivals(model: Model, posterior: Posterior, turf: number): number[] {
  const least = Math.max(...posterior.logLikelihood) - Math.log(model.settings.stillPossibleRatio)
  const shown = closeUpFor(model, posterior.evidence, turf)
  return [...(model.unsplit.get(turf) ?? [])].filter((other) => {
    if (posterior.guarded.includes(other) || (posterior.logLikelihood[other] ?? 0) < least) return false
    if (closeUpAgainst(model, posterior.evidence, other)) return false
    return !shown || closeUpSplits(model, turf, other)
  })
}

function closeUpSplits(model: Model, one: number, other: number): boolean {
  const [first, second] = [model.key.taxa[one], model.key.taxa[other]]
  return first !== undefined && second !== undefined && closeUpBetween(model.key.characters, first, second)
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
