import type { KeyData, Taxon } from '#src/key/schema.ts'
import { DEFAULT_SETTINGS, type Settings } from '#src/key/settings.ts'
import type { Observer } from './observer.ts'
import { pick, randomStream } from './random.ts'
import { type Ending, simulateWalk } from './simulate.ts'
import { disturbedTruth, matesOf, plainTruth, type Truth } from './truth.ts'

export type RunPlan = {
  readonly errors: number
  readonly seedHeads: boolean
  readonly truth: 'plain' | 'disturbed'
  readonly walks: number
  readonly seed: number
  readonly settings?: Settings
}

/** The share of "can't tell" among all answers of a trial. */
export const CANT_TELL = 0.2
/** How many disturbed tables a run goes through in turn. */
const DISTURBED_TABLES = 8

/** Counts of one run; shares are worked out from them in the report. */
export type RunCounts = {
  readonly plan: RunPlan
  readonly weeds: Tally
  readonly commonWeeds: Tally
  readonly ownTurf: Tally
  readonly leftOut: Tally
  readonly leftOutAlone: Tally
  readonly confused: ReadonlyMap<string, number>
  readonly heldBy: ReadonlyMap<string, { readonly held: number; readonly walks: number }>
}

export type Tally = {
  walks: number
  named: number
  right: number
  ownTurf: number
  held: number
  questions: number
  compared: number
  /** Named as another plant of the same genus, or with one among the names. */
  sister: number
}

/** A field of trial walks with one observer: weeds in lawns, the lawns' own grass, and plants taken out of the data. */
export function runTrial(key: KeyData, plan: RunPlan): RunCounts {
  const field = fieldOf(key, plan)
  const confused = new Map<string, number>()
  const heldBy = new Map<string, { held: number; walks: number }>()
  const weeds = tally()
  const commonWeeds = tally()
  const ownTurf = tally()
  const pairs = shuffled(weedPairs(key), field.observer.random)
  for (let walk = 0; walk < plan.walks; walk++) {
    const pair = pairs[walk % pairs.length]
    if (pair === undefined) continue
    const ending = walkOnce(field, key, pair)
    count(weeds, key, ending, pair.taxon)
    if (key.commonWeeds.includes(pair.taxon.id)) count(commonWeeds, key, ending, pair.taxon)
    noteMistake(confused, key, ending, pair)
    const held = heldBy.get(pair.taxon.id) ?? { held: 0, walks: 0 }
    heldBy.set(pair.taxon.id, {
      held: held.held + (ending.verdict.result === 'hold' ? 1 : 0),
      walks: held.walks + 1,
    })
  }
  const lawns = key.taxa.filter(isTurf)
  for (let walk = 0; walk < plan.walks; walk++) {
    const turf = lawns[walk % lawns.length]
    if (turf === undefined) continue
    const pair = { taxon: turf, turf }
    const ending = walkOnce(field, key, pair)
    count(ownTurf, key, ending, turf)
    if (ending.verdict.result === 'weed') noteMistake(confused, key, ending, pair)
  }
  const leftOut = runLeftOut(key, field, Math.ceil(plan.walks / 3), true)
  const leftOutAlone = runLeftOut(key, field, Math.ceil(plan.walks / 3), false)
  return { plan, weeds, commonWeeds, ownTurf, leftOut, leftOutAlone, confused, heldBy }
}

type Pair = { readonly taxon: Taxon; readonly turf: Taxon }
type Field = {
  readonly observer: Observer
  readonly truths: readonly Truth[]
  readonly mates: ReturnType<typeof matesOf>
  readonly settings: Settings
}

function fieldOf(key: KeyData, plan: RunPlan): Field {
  const random = randomStream(plan.seed)
  const truths =
    plan.truth === 'plain'
      ? [plainTruth(key)]
      : Array.from({ length: DISTURBED_TABLES }, () => disturbedTruth(key, random))
  return {
    observer: { errors: plan.errors, cantTell: CANT_TELL, seedHeads: plan.seedHeads, random },
    truths,
    mates: matesOf(key),
    settings: plan.settings ?? DEFAULT_SETTINGS,
  }
}

function walkOnce(field: Field, key: KeyData, { taxon, turf }: Pair): Ending {
  const { observer, truths, mates, settings } = field
  const truth = pick(truths, observer.random)
  const specimen = {
    cells: truth?.get(taxon.id) ?? taxon.cells,
    mates: (character: string) => mates(taxon, character),
  }
  return simulateWalk(key, specimen, { kind: 'record', turfs: [turf.id] }, observer, settings)
}

/** Every plant taken out of the data in turn, with the plants it is treated alike with or alone, and met in a lawn. */
function runLeftOut(key: KeyData, field: Field, walks: number, withMates: boolean): Tally {
  const result = tally()
  const each = Math.max(1, Math.round(walks / key.taxa.length))
  for (const taxon of key.taxa) {
    const rest = keyWithout(key, taxon, withMates)
    const lawns = rest.taxa.filter(isTurf)
    for (let walk = 0; walk < each; walk++) {
      const turf = pick(lawns, field.observer.random)
      if (turf !== undefined) count(result, rest, walkOnce(field, rest, { taxon, turf }), taxon)
    }
  }
  return result
}

const keysWithout = new WeakMap<KeyData, Map<string, KeyData>>()

/** The data without a plant. Kept, since every run takes out the same plants. */
function keyWithout(key: KeyData, taxon: Taxon, withMates: boolean): KeyData {
  const kept = keysWithout.get(key) ?? new Map<string, KeyData>()
  keysWithout.set(key, kept)
  const name = `${taxon.id} ${withMates}`
  const known = kept.get(name)
  if (known !== undefined) return known
  const groups = key.groups.filter((group) => group.members.includes(taxon.id))
  const gone = new Set([taxon.id, ...(withMates ? groups.flatMap((group) => group.members) : [])])
  const rest: KeyData = {
    ...key,
    taxa: key.taxa.filter((one) => !gone.has(one.id)),
    groups: key.groups.map((group) => ({
      ...group,
      members: group.members.filter((member) => !gone.has(member)),
    })),
  }
  kept.set(name, rest)
  return rest
}

function weedPairs(key: KeyData): Pair[] {
  return key.taxa
    .filter(isTurf)
    .flatMap((turf) => key.taxa.filter((taxon) => taxon !== turf).map((taxon) => ({ taxon, turf })))
}

function isTurf(taxon: Taxon): boolean {
  return taxon.role !== 'weed'
}

function tally(): Tally {
  return { walks: 0, named: 0, right: 0, ownTurf: 0, held: 0, questions: 0, compared: 0, sister: 0 }
}

function count(into: Tally, key: KeyData, ending: Ending, taxon: Taxon): void {
  into.walks++
  into.questions += ending.questions
  into.compared += ending.compared
  if (ending.verdict.result === 'own-turf') into.ownTurf++
  else if (ending.verdict.result === 'hold') into.held++
  else {
    into.named++
    const ids = namedIds(key, ending)
    if (ids.includes(taxon.id)) into.right++
    else if (key.taxa.some((one) => ids.includes(one.id) && genusOf(one) === genusOf(taxon))) into.sister++
  }
}

const genusOf = ({ scientificName }: Taxon) => scientificName.split(' ')[0]

function namedIds(key: KeyData, ending: Ending): string[] {
  return (ending.verdict.unit?.members ?? []).flatMap((member) => key.taxa[member]?.id ?? [])
}

function noteMistake(confused: Map<string, number>, key: KeyData, ending: Ending, pair: Pair): void {
  const { verdict } = ending
  if (verdict.result === 'hold') return
  const ids = namedIds(key, ending)
  if (verdict.result === 'weed' && ids.includes(pair.taxon.id) && pair.taxon !== pair.turf) return
  const text =
    verdict.result === 'weed'
      ? `${pair.taxon.id} named ${verdict.unit.group ?? ids.join('+')}`
      : `${pair.taxon.id} taken for the lawn's ${pair.turf.id}`
  confused.set(text, (confused.get(text) ?? 0) + 1)
}

function shuffled<T>(list: readonly T[], random: () => number): T[] {
  const copy = [...list]
  for (let at = copy.length - 1; at > 0; at--) {
    const other = Math.floor(random() * (at + 1))
    const kept = copy[at] as T
    copy[at] = copy[other] as T
    copy[other] = kept
  }
  return copy
}
