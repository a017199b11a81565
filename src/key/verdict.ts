import { fitOf } from './evidence.ts'
import { checkTurf, unsplitRivals } from './guard.ts'
import type { Model } from './model.ts'
import type { Posterior } from './posterior.ts'
import { leading, shareOf, type Unit, unitsOf } from './units.ts'

export type HoldReason = 'not-sure' | 'none-fits' | 'turf-unknown'
export type Verdict =
  | { readonly result: 'weed'; readonly unit: Unit }
  | { readonly result: 'own-turf'; readonly unit: Unit }
  | { readonly result: 'hold'; readonly reason: HoldReason; readonly unit?: Unit }

/** What may be said: a weed, the lawn's own grass, or a hold with its reason. Nothing but `weed` leads to a product. */
export function verdictOf(model: Model, posterior: Posterior): Verdict {
  const { settings } = model
  if (posterior.evidence.length === 0) return { result: 'hold', reason: 'not-sure' }
  const own = ownGrass(model, posterior)
  if (own !== undefined) return { result: 'own-turf', unit: own }
  const unit = nameable(model, posterior)
  if (unit !== undefined) {
    const blocked = posterior.guarded.some((turf) =>
      unit.members.includes(turf) ? true : !checkTurf(model, posterior, unit, turf).ruledOut,
    )
    if (!blocked) return { result: 'weed', unit }
    if (!posterior.turfKnown && unit.members.some((member) => posterior.guarded.includes(member))) {
      return { result: 'hold', reason: 'turf-unknown', unit }
    }
  }
  const nothing = posterior.novelTotal >= settings.noneFitsShare || fitsPoorly(model, posterior)
  const reason = nothing ? 'none-fits' : 'not-sure'
  return { result: 'hold', reason }
}

/** The smallest unit that holds enough of the probability and outweighs a relative that is not in the data. */
export function nameable(model: Model, posterior: Posterior): Unit | undefined {
  const { settings } = model
  const top = leading(posterior.share)
  return unitsOf(model, top, posterior).find((unit) => {
    const share = shareOf(unit, posterior.share)
    const novel = novelNear(unit, posterior)
    return (
      share >= settings.nameShare * (1 - posterior.novelTotal) &&
      share >= settings.nameOverNovel * novel &&
      agreeing(model, posterior, top)
    )
  })
}

/** Probability that it is a relative of these plants that is not in the data. */
export function novelNear(unit: Unit, posterior: Posterior): number {
  return shareOf(unit, posterior.novel)
}

/** At least two independent characters speak for a name. */
function agreeing(model: Model, posterior: Posterior, taxon: number): boolean {
  const cells = model.key.taxa[taxon]?.cells ?? {}
  const families = posterior.evidence
    .filter((one) => fitOf(one, cells[one.compiled.character.id]) === 'fits')
    .map((one) => one.compiled.character.family)
  return new Set(families).size >= 2
}

/** Even the plant that explains the answers best clashes with two of them, and with a third of all. */
function fitsPoorly(model: Model, posterior: Posterior): boolean {
  const best = leading(posterior.logLikelihood)
  const cells = model.key.taxa[best]?.cells ?? {}
  const clashes = posterior.evidence.filter(
    (one) =>
      one.compiled.character.reliability !== 'weak' &&
      fitOf(one, cells[one.compiled.character.id]) === 'clash',
  ).length
  return clashes >= 2 && clashes * 3 >= posterior.evidence.length
}

function ownGrass(model: Model, posterior: Posterior): Unit | undefined {
  const { settings } = model
  if (!posterior.turfKnown || posterior.guarded.length === 0) return undefined
  const top = leading(posterior.share)
  if (!posterior.guarded.includes(top) || !agreeing(model, posterior, top)) return undefined
  const unit = { members: posterior.guarded }
  if (shareOf(unit, posterior.share) < settings.ownShare) return undefined
  if (unsplitRivals(model, posterior, top).length > 0) return undefined
  const others = new Set(posterior.guarded)
  const rival = leading(posterior.logLikelihood, others)
  const lead = (posterior.logLikelihood[top] ?? 0) - (posterior.logLikelihood[rival] ?? 0)
  return lead >= Math.log(settings.ownOverOthers) ? { members: [top] } : undefined
}
