import { fitOf } from './evidence.ts'
import { checkTurf, unsplitRivals } from './guard.ts'
import { expandSide, lookAlikesOf } from './lookAlikes.ts'
import type { CompiledCharacter, Model } from './model.ts'
import type { Posterior } from './posterior.ts'
import type { Character } from './schema.ts'
import { classesOf, leading, shareOf, type Unit, unitsOf } from './units.ts'
import { isCloseUp } from './unsplit.ts'
import { novelNear } from './verdict.ts'
import type { Walk } from './walk.ts'

/** Plants below this share do not steer the choice of a question. */
const NEGLIGIBLE = 5e-4

/** `again`: this was answered, and the answer speaks against the leading name; a second look pays. */
export type Worth = {
  readonly compiled: CompiledCharacter
  readonly worth: number
  readonly again: boolean
}

/**
 * The unasked characters by what asking them is worth, best first: expected information about the name, plus how far
 * it takes the leading name from each turf that is still possible and from a relative that is not in the data, times
 * the chance that it can be seen, per effort.
 */
export function rankQuestions(model: Model, posterior: Posterior, walk: Walk): Worth[] {
  const close = aroundGuess(model, posterior, walk)
  const narrow = close === undefined ? [] : rankAmong(model, posterior, walk, close)
  return narrow.length > 0 ? narrow : rankAmong(model, posterior, walk, undefined)
}

/** The guess, what grows here and the look-alikes of the guess; undefined without a guess that is still possible. */
function aroundGuess(model: Model, posterior: Posterior, walk: Walk): ReadonlySet<number> | undefined {
  const guess = possibleGuess(model, posterior, walk)
  if (guess.length === 0) return undefined
  const ids = guess.flatMap((taxon) => model.key.taxa[taxon]?.id ?? [])
  const alike = lookAlikesOf(model, ids).flatMap((one) => expandSide(model, one.takenFor))
  const close = alike.flatMap((id) => model.indexOf.get(id) ?? [])
  return new Set([...guess, ...posterior.guarded, ...close])
}

function possibleGuess(model: Model, posterior: Posterior, walk: Walk): number[] {
  return (walk.guess ?? [])
    .flatMap((id) => guessMembers(model, id))
    .filter((taxon) => (posterior.share[taxon] ?? 0) > NEGLIGIBLE)
}

function rankAmong(
  model: Model,
  posterior: Posterior,
  walk: Walk,
  among: ReadonlySet<number> | undefined,
): Worth[] {
  const asked = new Set(walk.answers.map((answer) => answer.character))
  const context = contextOf(model, posterior, walk, among)
  const fresh = model.characters
    .filter(({ character }) => character.asked !== false && !asked.has(character.id))
    .filter((compiled) => !isOutOfReach(compiled, walk))
    .map((compiled) => ({ compiled, worth: worthOf(compiled, context), again: false }))
  const again = doubtful(context).map((compiled) => ({
    compiled,
    worth: model.settings.againWorth * worthOf(compiled, context),
    again: true,
  }))
  return [...fresh, ...again]
    .filter(({ worth }) => worth > model.settings.minWorth)
    .sort((a, b) => b.worth - a.worth)
}

/** Characters whose answer clashes with the leading plant and was given only once. */
function doubtful(context: Context): CompiledCharacter[] {
  const cells = context.model.key.taxa[context.target]?.cells ?? {}
  return context.posterior.evidence
    .filter(({ answer }) => answer.kind !== 'cant-tell' && answer.confirmed === undefined)
    .filter(({ compiled }) => compiled.character.asked !== false && compiled.character.kind !== 'hallmark')
    .filter((one) => fitOf(one, cells[one.compiled.character.id]) === 'clash')
    .map(({ compiled }) => compiled)
}

/** What stands in the way of the leading name; with `needsCloseUp` no plain character takes it away. */
type Blocker = { readonly turf: number; readonly missing: number; readonly needsCloseUp: boolean }

type Context = {
  readonly model: Model
  readonly posterior: Posterior
  readonly walk: Walk
  readonly active: readonly number[]
  /** The class of each active plant as a slot in `before`. */
  readonly slots: Uint16Array
  /** Probability of each class; the last is "a plant that is not in the data". */
  readonly before: Float64Array
  readonly target: number
  readonly targetShare: number
  readonly blockers: readonly Blocker[]
  readonly novelMissing: number
  /** Probability of all that is considered: 1, or that of what is close to the guess. */
  readonly mass: number
}

function contextOf(
  model: Model,
  posterior: Posterior,
  walk: Walk,
  among: ReadonlySet<number> | undefined,
): Context {
  const { settings } = model
  const active: number[] = []
  posterior.share.forEach((share, taxon) => {
    if (share > NEGLIGIBLE && (among === undefined || among.has(taxon))) active.push(taxon)
  })
  const unit = targetOf(model, posterior, walk)
  const target = leadingOf(unit, posterior)
  const guarded = new Set(posterior.guarded)
  const blockers = guarded.has(target)
    ? rivalsOf(model, posterior, target, guarded)
    : posterior.guarded
        .filter((turf) => !unit.members.includes(turf))
        .map((turf) => checkTurf(model, posterior, unit, turf))
        .filter((check) => !check.ruledOut)
        .map((check) => ({ ...check, missing: Math.max(check.missing, 1) }))
  const { slots, before } = slotsOf(model, posterior, active)
  const mass = among === undefined ? 1 : before.reduce((sum, value) => sum + value, 0)
  const over = shareOf(unit, posterior.share) / Math.max(novelNear(unit, posterior), 1e-12)
  return {
    model,
    posterior,
    walk,
    active,
    slots,
    before,
    target,
    targetShare: shareOf(unit, posterior.share) / mass,
    mass,
    blockers: blockers.sort((a, b) => b.missing - a.missing).slice(0, 6),
    novelMissing: Math.max(0, Math.log(settings.nameOverNovel) - Math.log(over)),
  }
}

function slotsOf(
  model: Model,
  posterior: Posterior,
  active: readonly number[],
): { slots: Uint16Array; before: Float64Array } {
  const classes = classesOf(model, posterior)
  const found = new Map<number, number>()
  const slots = new Uint16Array(active.length)
  active.forEach((taxon, each) => {
    const own = classes[taxon] ?? taxon
    const slot = found.get(own) ?? found.size
    found.set(own, slot)
    slots[each] = slot
  })
  const before = new Float64Array(found.size + 1)
  active.forEach((taxon, each) => {
    const slot = slots[each] ?? 0
    before[slot] = (before[slot] ?? 0) + (posterior.share[taxon] ?? 0)
    before[found.size] = (before[found.size] ?? 0) + (posterior.novel[taxon] ?? 0)
  })
  return { slots, before }
}

/** What the walk is after: the guess while it is possible, else the leading name. */
function targetOf(model: Model, posterior: Posterior, walk: Walk): Unit {
  const possible = possibleGuess(model, posterior, walk)
  if (possible.length > 0) return { members: possible }
  const top = leading(posterior.share)
  return unitsOf(model, top, posterior).at(-1) ?? { members: [top] }
}

function guessMembers(model: Model, id: string): number[] {
  const group = model.key.groups.find((one) => one.id === id)
  return (group?.members ?? [id]).flatMap((member) => model.indexOf.get(member) ?? [])
}

function leadingOf(unit: Unit, posterior: Posterior): number {
  return [...unit.members].sort((a, b) => (posterior.share[b] ?? 0) - (posterior.share[a] ?? 0))[0] ?? 0
}

function rivalsOf(
  model: Model,
  posterior: Posterior,
  target: number,
  guarded: ReadonlySet<number>,
): Blocker[] {
  const own = posterior.logLikelihood[target] ?? 0
  const unsplit = new Set(unsplitRivals(model, posterior, target))
  return [...posterior.logLikelihood]
    .map((log, turf) => {
      const missing = Math.log(model.settings.ownOverOthers) - (own - log)
      const needsCloseUp = unsplit.has(turf)
      return { turf, missing: needsCloseUp ? Math.max(missing, 1) : missing, needsCloseUp }
    })
    .filter(({ turf, missing }) => missing > 0 && !guarded.has(turf))
}

/** The character that says whether the plant has such a part today. */
const SHOWS = { head: 'seedhead', flower: 'flower_color' } as const

/** The plant was said to have no seed head, or no flower, today. */
export function isGone(part: keyof typeof SHOWS, { answers }: Walk): boolean {
  return answers.some(
    (answer) =>
      answer.character === SHOWS[part] && answer.kind === 'states' && answer.states.includes('none-seen'),
  )
}

/** A part of a head or flower that was said not to be there. */
export function isOutOfReach({ character }: CompiledCharacter, walk: Walk): boolean {
  return character.part !== undefined && isGone(character.part, walk)
}

/** Chance that a crew can see this character today. */
const VISIBLE = {
  mown: { yes: 1, mostly: 0.8, partly: 0.7, no: 0.4 },
  uncut: { yes: 1, mostly: 0.9, partly: 0.9, no: 0.75 },
} as const

export function visibilityOf({ mown }: Character, walk: Walk): number {
  return VISIBLE[walk.mown ? 'mown' : 'uncut'][mown]
}

function worthOf(compiled: CompiledCharacter, context: Context): number {
  const { settings } = context.model
  const { character } = compiled
  const visible = visibilityOf(character, context.walk)
  const gain = informationGain(compiled, context) / context.mass
  const apart = settings.turfWorth * context.targetShare * separation(compiled, context)
  return (visible * (gain + apart)) / character.effort ** settings.effortPower
}

/** Room for the table of classes by outcomes; cleared for each character, so that a walk makes no garbage. */
const scratch = { mass: new Float64Array(256 * 32), total: new Float64Array(32) }

function informationGain(compiled: CompiledCharacter, context: Context): number {
  const { posterior, active, slots, before } = context
  const count = compiled.outcomes.length
  const { offered, offeredNovel } = compiled
  const { mass, total } = scratch
  const novelAt = (before.length - 1) * count
  mass.fill(0, 0, before.length * count)
  total.fill(0, 0, count)
  for (let each = 0; each < active.length; each++) {
    const taxon = active[each] ?? 0
    const share = posterior.share[taxon] ?? 0
    const novel = posterior.novel[taxon] ?? 0
    const to = (slots[each] ?? 0) * count
    const from = taxon * count
    for (let outcome = 0; outcome < count; outcome++) {
      const known = share * (offered[from + outcome] ?? 0)
      const other = novel * (offeredNovel[from + outcome] ?? 0)
      mass[to + outcome] = (mass[to + outcome] ?? 0) + known
      mass[novelAt + outcome] = (mass[novelAt + outcome] ?? 0) + other
      total[outcome] = (total[outcome] ?? 0) + known + other
    }
  }
  let gain = 0
  for (let slot = 0; slot < before.length; slot++) {
    const prior = before[slot] ?? 0
    if (prior <= 0) continue
    for (let outcome = 0; outcome < count; outcome++) {
      const joint = mass[slot * count + outcome] ?? 0
      if (joint > 1e-9) gain += joint * Math.log(joint / (prior * (total[outcome] ?? 1)))
    }
  }
  return Math.max(gain, 0)
}

/** Expected progress in log odds of the leading name against what still blocks it, up to what is missing. */
function separation(compiled: CompiledCharacter, context: Context): number {
  const { blockers, target, novelMissing } = context
  let sum = 0
  const closeUp = isCloseUp(compiled.character)
  for (const { turf, missing, needsCloseUp } of blockers) {
    if (needsCloseUp && !closeUp) continue
    sum += Math.min(missing, divergence(compiled, compiled.offered, target, turf))
  }
  if (novelMissing > 0) {
    sum += Math.min(novelMissing, divergence(compiled, compiled.offeredNovel, target, target))
  }
  return sum
}

function divergence(
  compiled: CompiledCharacter,
  against: Float64Array,
  target: number,
  other: number,
): number {
  const count = compiled.outcomes.length
  let sum = 0
  for (let outcome = 0; outcome < count; outcome++) {
    const p = compiled.offered[target * count + outcome] ?? 0
    const q = against[other * count + outcome] ?? 0
    if (p > 0 && q > 0) sum += p * Math.log(p / q)
  }
  return Math.max(sum, 0)
}
