import { addLogChances, type Evidence, evidenceOf, logChance } from './evidence.ts'
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
  /** Log by which each guarded turf is more probable when cells from memory are not held against it. */
  readonly benefitOfDoubt: ReadonlyMap<number, number>
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
  const benefitOfDoubt = new Map(guarded.map((turf) => [turf, doubtOf(model, evidence, turf)]))
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
  return { evidence, share, novel, novelTotal, logLikelihood, benefitOfDoubt, guarded, turfKnown }
}

/** What a turf loses on answers that clash with cells from memory, against a plant of which nothing is known. */
function doubtOf(model: Model, evidence: readonly Evidence[], turf: number): number {
  const cells = model.key.taxa[turf]?.cells ?? {}
  return evidence.reduce((sum, one) => {
    const cell = cells[one.compiled.character.id]
    if (cell?.kind !== 'states' && cell?.kind !== 'range') return sum
    if (!cell.memory) return sum
    const own = logChance(one, one.compiled.chances, turf)
    return sum + Math.max(0, logChance(one, one.compiled.general, turf) - own)
  }, 0)
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
