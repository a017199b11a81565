import type { CompiledCharacter, Model } from './model.ts'
import type { Posterior } from './posterior.ts'
import { isOutOfReach, visibilityOf } from './question.ts'
import type { Cell, State, Taxon } from './schema.ts'
import { leading } from './units.ts'
import type { Answer, Walk } from './walk.ts'

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
 * not in the data would most likely differ, and that can be seen today. The most telling first.
 */
export function comparisonsFor(model: Model, posterior: Posterior, walk: Walk): Comparison[] {
  const top = leading(posterior.share)
  const taxon = model.key.taxa[top]
  if (taxon === undefined) return []
  const asked = new Set(walk.answers.map(({ character }) => character))
  return model.characters
    .filter(({ character }) => character.kind === 'one' && character.asked !== false)
    .filter(({ character }) => character.reliability !== 'weak')
    .filter((compiled) => !asked.has(compiled.character.id) && !isOutOfReach(compiled, walk))
    .flatMap((compiled) => {
      const comparison = comparisonOf(compiled, taxon)
      return comparison === undefined ? [] : [{ comparison, worth: worthOf(compiled, comparison, top, walk) }]
    })
    .sort((a, b) => b.worth - a.worth)
    .slice(0, COMPARED)
    .map(({ comparison }) => comparison)
}

function comparisonOf({ character }: CompiledCharacter, taxon: Taxon): Comparison | undefined {
  const cell: Cell | undefined = taxon.cells[character.id]
  if (cell?.kind !== 'states' || cell.memory) return undefined
  const states = character.states.filter(({ neutral }) => neutral !== true)
  const other = ids(states).filter((id) => !cell.states.includes(id))
  return other.length === 0 ? undefined : { character: character.id, fits: cell.states, other }
}

const ids = (states: readonly State[]) => states.map(({ id }) => id)

/** Expected log odds, of "it fits" or "it does not", between the plant and a relative that is not in the data. */
function worthOf(compiled: CompiledCharacter, { fits }: Comparison, taxon: number, walk: Walk): number {
  const own = chanceOf(compiled, compiled.offered, fits, taxon)
  const relative = chanceOf(compiled, compiled.offeredNovel, fits, taxon)
  const telling = own * Math.log(own / relative) + (1 - own) * Math.log((1 - own) / (1 - relative))
  return visibilityOf(compiled.character, walk) * telling
}

function chanceOf(
  { outcomes }: CompiledCharacter,
  offered: Float64Array,
  states: readonly string[],
  taxon: number,
): number {
  const sum = outcomes.reduce(
    (total, { id }, at) => total + (states.includes(id) ? (offered[taxon * outcomes.length + at] ?? 0) : 0),
    0,
  )
  return Math.min(Math.max(sum, 1e-6), 1 - 1e-6)
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
