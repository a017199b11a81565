import { addLogChances, type Evidence, evidenceOf } from './evidence.ts'
import type { Model } from './model.ts'
import type { Walk } from './walk.ts'

/**
 * What the answers make of every plant. `share[t]`: how probable it is; `novel[t]`: a relative of it that is not in
 * the data; both together sum to 1. `logLikelihood[t]`: how well it explains the answers, whatever was expected.
 */
export type Posterior = {
  readonly evidence: readonly Evidence[]
  readonly share: Float64Array
  readonly novel: Float64Array
  readonly novelTotal: number
  readonly logLikelihood: Float64Array
  readonly guarded: readonly number[]
  readonly turfKnown: boolean
}

/** The plants that must not be named a weed here: the area's turfs, or every turf where they are not known. */
export function guardedTurfs(model: Model, walk: Walk): number[] {
  const { turf } = walk
  if (turf.kind !== 'unknown') {
    return turf.turfs.flatMap((id) => {
      const index = model.indexOf.get(id)
      return index === undefined ? [] : [index]
    })
  }
  return model.key.taxa.flatMap((taxon, index) => (taxon.role === 'weed' ? [] : [index]))
}

export function posteriorOf(model: Model, walk: Walk): Posterior {
  const evidence = evidenceOf(model, walk.answers)
  const count = model.key.taxa.length
  const { settings } = model
  const logLikelihood = new Float64Array(count)
  const logNovel = new Float64Array(count)
  const families = new Map<string, number>()
  for (const { compiled } of evidence) {
    families.set(compiled.character.family, (families.get(compiled.character.family) ?? 0) + 1)
  }
  for (const one of evidence) {
    const hallmark = one.compiled.character.kind === 'hallmark' ? settings.hallmarkPower : 1
    const again =
      one.answer.kind !== 'cant-tell' && one.answer.confirmed === true ? settings.confirmedPower : 1
    const weight =
      again * hallmark * (families.get(one.compiled.character.family) ?? 1) ** -settings.familyPower
    addLogChances(one, one.compiled.chances, logLikelihood, weight)
    addLogChances(one, one.compiled.novel, logNovel, weight)
  }
  const guarded = guardedTurfs(model, walk)
  const prior = priors(model, guarded)
  const share = logLikelihood.map((log, taxon) => log + Math.log(prior[taxon] ?? 1e-9))
  const novel = logNovel.map((log) => log + Math.log(settings.noveltyPrior / count))
  const top = Math.max(...share, ...novel)
  let sum = 0
  for (const list of [share, novel]) {
    list.forEach((log, taxon) => {
      list[taxon] = Math.exp(log - top)
      sum += list[taxon] ?? 0
    })
  }
  let novelTotal = 0
  for (let taxon = 0; taxon < count; taxon++) {
    share[taxon] = (share[taxon] ?? 0) / sum
    novel[taxon] = (novel[taxon] ?? 0) / sum
    novelTotal += novel[taxon] ?? 0
  }
  const turfKnown = walk.turf.kind !== 'unknown'
  return { evidence, share, novel, novelTotal, logLikelihood, guarded, turfKnown }
}

function priors(model: Model, guarded: readonly number[]): Float64Array {
  const { settings, key } = model
  const turfs = new Set(guarded)
  const common = new Set(key.commonWeeds)
  const weights = Float64Array.from(key.taxa, (taxon, index) => {
    if (turfs.has(index)) return 0
    return common.has(taxon.id) ? settings.commonWeight : 1
  })
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  const known = 1 - settings.noveltyPrior
  const own = guarded.length === 0 ? 0 : settings.ownPrior
  const prior = weights.map((weight) => ((1 - own) * known * weight) / total)
  for (const turf of guarded) prior[turf] = (own * known) / guarded.length
  return prior
}
