import { type AdviceId, adviceFor } from './advice.ts'
import { type Comparison, comparisonsFor } from './comparison.ts'
import { contradictionOf } from './guard.ts'
import { type LookAlikeCheck, lookAlikesOf } from './lookAlikes.ts'
import type { Model } from './model.ts'
import { type Question, questionAfter } from './nextQuestion.ts'
import type { Posterior } from './posterior.ts'
import { rankQuestions } from './question.ts'
import { likelyWrong, type Reason, reasonsFor } from './reasons.ts'
import type { KeyData, Words } from './schema.ts'
import { leading, type Unit } from './units.ts'
import type { HoldReason } from './verdict.ts'
import type { Walk } from './walk.ts'
import { type Weighing, weighingOf } from './weighing.ts'

/** A plant that was named; with `group` the name stands for all `members`, the likeliest first. */
export type NamedTaxon = {
  readonly id: string
  readonly scientificName: string
  readonly names: Words
  readonly members: readonly { readonly id: string; readonly scientificName: string }[]
  readonly group?: { readonly id: string; readonly names: Words; readonly saysAll: boolean }
}

/**
 * What the answers amount to. `result`: only `weed` may lead on to a product; everything else is "don't spray".
 * `open`: a hold with a question still worth asking.
 * `remaining`: what is still possible with its share of the probability, the likeliest first.
 */
export type Standing = {
  readonly result: 'weed' | 'own-turf' | 'hold'
  readonly open: boolean
  readonly holdReason?: HoldReason
  readonly taxon?: NamedTaxon
  readonly remaining: readonly { readonly id: string; readonly share: number }[]
}

/**
 * The standing and why. `about`: the plant that the reasons speak of.
 * `lookFor`: characters that would tell the rest apart, whether they can be seen today or not.
 * `likelyWrong`: on a hold, the answers (at most two) whose mistake would explain most.
 * `compare`: of a weed that was named, what else to hold against the plant before it is treated.
 */
export type Assessment = Standing & {
  readonly about?: string
  readonly spokeFor: readonly Reason[]
  readonly spokeAgainst: readonly Reason[]
  readonly lookAlikes: readonly LookAlikeCheck[]
  readonly lookFor: readonly string[]
  readonly likelyWrong: readonly Reason[]
  readonly compare: readonly Comparison[]
  readonly advice: readonly AdviceId[]
}

/** Where a walk stands and what to ask next; the reasons are worked out only where they are shown. */
export type Considered = {
  readonly standing: Standing
  readonly question: Question | null
  readonly explain: () => Assessment
}

/** Weighs the answers of a walk. The same answers in any order give the same assessment. */
export function assess(key: KeyData, walk: Walk): Assessment {
  return consider(key, walk).explain()
}

export function consider(key: KeyData, walk: Walk): Considered {
  const weighing = weighingOf(key, walk)
  const question = questionAfter(weighing)
  const standing = standingOf(weighing, question !== null)
  return { standing, question, explain: () => explained(weighing, standing) }
}

function standingOf({ model, posterior, verdict }: Weighing, open: boolean): Standing {
  return {
    result: verdict.result,
    open,
    ...(verdict.result === 'hold' ? { holdReason: verdict.reason } : {}),
    ...(verdict.unit === undefined ? {} : { taxon: nameUnit(model, verdict.unit, posterior) }),
    remaining: stillPossible(model, posterior),
  }
}

function explained(weighing: Weighing, standing: Standing): Assessment {
  const { model, posterior, verdict, walk } = weighing
  const top = verdict.unit === undefined ? leading(posterior.share) : leadingMember(verdict.unit, posterior)
  const about = model.key.taxa[top]?.id
  const isHold = verdict.result === 'hold'
  const near = standing.remaining.slice(0, 4).map((one) => one.id)
  return {
    ...standing,
    ...(about === undefined || posterior.evidence.length === 0 ? {} : { about }),
    ...reasonsFor(model, posterior, top),
    lookAlikes: lookAlikesOf(model, verdict.unit === undefined ? near : unitIds(model, verdict.unit)),
    lookFor: isHold ? lookFor(model, posterior, walk) : [],
    likelyWrong: isHold ? likelyWrong(model, posterior) : [],
    compare: verdict.result === 'weed' ? comparisonsFor(weighing, verdict.unit) : [],
    advice: adviceFor(verdict, walk),
  }
}

function leadingMember(unit: Unit, posterior: Posterior): number {
  return [...unit.members].sort((a, b) => (posterior.share[b] ?? 0) - (posterior.share[a] ?? 0))[0] ?? 0
}

function unitIds(model: Model, unit: Unit): string[] {
  return unit.members.flatMap((member) => model.key.taxa[member]?.id ?? [])
}

function nameUnit(model: Model, unit: Unit, posterior: Posterior): NamedTaxon {
  const taxa = [...unit.members]
    .sort((a, b) => (posterior.share[b] ?? 0) - (posterior.share[a] ?? 0))
    .flatMap((member) => model.key.taxa[member] ?? [])
  const first = taxa[0]
  if (first === undefined) throw new Error('Cannot name a unit without members')
  const group = model.key.groups.find((one) => one.id === unit.group)
  return {
    id: first.id,
    scientificName: first.scientificName,
    names: first.names,
    members: taxa.map(({ id, scientificName }) => ({ id, scientificName })),
    ...(group === undefined
      ? {}
      : { group: { id: group.id, names: group.name, saysAll: group.saysAll === true } }),
  }
}

/** Plants that explain the answers nearly as well as the best one, and the area's turf while it is not ruled out. */
function stillPossible(model: Model, posterior: Posterior): { id: string; share: number }[] {
  const { logLikelihood, share, guarded, turfKnown } = posterior
  const least = Math.max(...logLikelihood) - Math.log(model.settings.stillPossibleRatio)
  return model.key.taxa
    .map((taxon, index) => ({ id: taxon.id, share: share[index] ?? 0, index }))
    .filter(({ index }) => {
      if ((logLikelihood[index] ?? 0) >= least) return true
      return (
        turfKnown && guarded.includes(index) && contradictionOf(model, posterior.evidence, index) === 'none'
      )
    })
    .sort((a, b) => b.share - a.share || a.index - b.index)
    .map(({ id, share }) => ({ id, share }))
}

const LOOK_FOR = 4

/** The best unasked characters as if the patch were not mown and a head were there. */
function lookFor(model: Model, posterior: Posterior, walk: Walk): string[] {
  const answers = walk.answers.filter(
    (answer) =>
      answer.kind !== 'cant-tell' && !(answer.kind === 'states' && answer.states.includes('none-seen')),
  )
  return rankQuestions(model, posterior, { ...walk, answers, mown: false })
    .filter((one) => !one.again)
    .slice(0, LOOK_FOR)
    .map((one) => one.compiled.character.id)
}
