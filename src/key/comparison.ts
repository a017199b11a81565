import type { CompiledCharacter, Model } from './model.ts'
import { isOutOfReach, visibilityOf } from './question.ts'
import type { Cell } from './schema.ts'
import type { Unit } from './units.ts'
import type { Answer, Walk } from './walk.ts'
import type { Weighing } from './weighing.ts'

/**
 * A character in which a plant that was named can be compared with the one at hand: `fits` are the states that the
 * name lists, `other` all that would speak against it. Only looked-up cells are compared.
 */
export type Comparison = {
  readonly character: string
  readonly fits: readonly string[]
  readonly other: readonly string[]
}

/** As many as a crew reads before it sprays; more are not read. */
const COMPARED = 6

/**
 * What to hold against the plant before it is treated: characters nobody has looked at yet in which a relative that is
 * not in the data would most likely differ, and that can be seen today. The most telling first. A name that stands for
 * several plants is compared in what is known of each of them.
 */
export function comparisonsFor({ model, walk }: Weighing, { members }: Unit): Comparison[] {
  const asked = new Set(walk.answers.map(({ character }) => character))
  return model.characters
    .filter(({ character }) => character.kind === 'one' && character.asked !== false)
    .filter(({ character }) => character.reliability !== 'weak')
    .filter((compiled) => !asked.has(compiled.character.id) && !isOutOfReach(compiled, walk))
    .flatMap((compiled) => {
      const comparison = comparisonOf(compiled, members, model)
      return comparison === undefined
        ? []
        : [{ comparison, worth: worthOf(compiled, comparison, members, walk) }]
    })
    .sort((a, b) => b.worth - a.worth)
    .slice(0, COMPARED)
    .map(({ comparison }) => comparison)
}

function comparisonOf(
  { character }: CompiledCharacter,
  members: Unit['members'],
  { key }: Model,
): Comparison | undefined {
  const listed = members.map((member) => sourcedStates(key.taxa[member]?.cells[character.id]))
  if (listed.includes(undefined)) return undefined
  const may = new Set(listed.flatMap((states) => states ?? []))
  const known = character.states.filter(({ neutral }) => neutral !== true).map(({ id }) => id)
  const other = known.filter((id) => !may.has(id))
  return other.length === 0
    ? undefined
    : { character: character.id, fits: known.filter((id) => may.has(id)), other }
}

const sourcedStates = (cell: Cell | undefined) =>
  cell?.kind === 'states' && !cell.memory ? cell.states : undefined

/** Expected log odds, of "it fits" or "it does not", between a plant of that name and a relative that is not in the data. */
function worthOf(
  compiled: CompiledCharacter,
  { fits }: Comparison,
  members: Unit['members'],
  walk: Walk,
): number {
  const own = chanceOf(compiled, compiled.offered, fits, members)
  const relative = chanceOf(compiled, compiled.offeredNovel, fits, members)
  const telling = own * Math.log(own / relative) + (1 - own) * Math.log((1 - own) / (1 - relative))
  return visibilityOf(compiled.character, walk) * telling
}

/** Chance of any of these states, on average over the plants. */
function chanceOf(
  { outcomes }: CompiledCharacter,
  offered: Float64Array,
  states: readonly string[],
  members: Unit['members'],
): number {
  let sum = 0
  for (const member of members) {
    outcomes.forEach(({ id }, at) => {
      if (states.includes(id)) sum += offered[member * outcomes.length + at] ?? 0
    })
  }
  return Math.min(Math.max(sum / members.length, 1e-6), 1 - 1e-6)
}

/** What was found: the characters that do not fit, and those that could not be seen. All others fitted. */
export type Found = { readonly clashes: readonly string[]; readonly unseen: readonly string[] }

/** What the comparison showed, as answers like any others. */
export function comparisonAnswers(comparisons: readonly Comparison[], { clashes, unseen }: Found): Answer[] {
  return comparisons.map(({ character, fits, other }): Answer => {
    if (clashes.includes(character)) return { kind: 'states', character, states: [...other] }
    if (unseen.includes(character)) return { kind: 'cant-tell', character }
    return { kind: 'states', character, states: [...fits] }
  })
}
