import { SLACK_LOG } from './numbers.ts'
import type { Cell, Character, KeyData, Taxon } from './schema.ts'

/** What a character counts for in splitting a pair; one that is firm counts in full. */
const FIRMNESS = { 'very-good': 1, good: 1, fair: 0.5, weak: 0 } as const
/** A difference that rests on a cell from memory counts half. */
const FROM_MEMORY = 0.5
/** A pair is split by one firm character that was looked up, or by as much from independent lesser ones. */
const SPLIT = 1

/**
 * Whether a character decides where the look of mown turf does not: a seed head or flower, a hallmark, what is dug
 * up, or a part so small that it takes a close look.
 */
export function isCloseUp(character: Character): boolean {
  if (character.reliability === 'weak') return false
  return (
    character.part !== undefined ||
    character.kind === 'hallmark' ||
    character.family === 'roots' ||
    character.ease === 'hard'
  )
}

/** Whether a character can be seen on mown turf with the bare eye: what a pair must differ in to count as split. */
function isPlain(character: Character): boolean {
  return (
    character.mown !== 'no' &&
    character.part === undefined &&
    character.kind !== 'hallmark' &&
    character.ease !== 'hard'
  )
}

/**
 * How far the plain look of mown turf tells two plants apart: the characters in which they share no state, each by
 * its firmness, those whose mistakes go together once.
 */
export function splitBetween(characters: readonly Character[], one: Taxon, other: Taxon): number {
  const families = new Map<string, number>()
  for (const character of characters) {
    if (!isPlain(character)) continue
    const weight =
      FIRMNESS[character.reliability] * differs(one.cells[character.id], other.cells[character.id])
    families.set(character.family, Math.max(weight, families.get(character.family) ?? 0))
  }
  return [...families.values()].reduce((sum, weight) => sum + weight, 0)
}

/** Whether some close-up in the data is never the same on the two plants. */
export function closeUpBetween(characters: readonly Character[], one: Taxon, other: Taxon): boolean {
  return characters.some(
    (character) =>
      isCloseUp(character) &&
      character.kind !== 'hallmark' &&
      differs(one.cells[character.id], other.cells[character.id]) > 0,
  )
}

/** 1 where two cells have no state in common, half of it where one is from memory, 0 where they may look alike. */
function differs(one: Cell | undefined, other: Cell | undefined): number {
  if (one?.kind === 'states' && other?.kind === 'states') {
    return one.states.some((state) => other.states.includes(state)) ? 0 : trust(one, other)
  }
  if (one?.kind === 'range' && other?.kind === 'range') {
    const slack = Math.exp(SLACK_LOG)
    return one.from > other.to * slack || other.from > one.to * slack ? trust(one, other) : 0
  }
  const missing = (cell: Cell | undefined) => cell?.kind === 'na'
  const known = (cell: Cell | undefined) => cell?.kind === 'states' || cell?.kind === 'range'
  return (missing(one) && known(other)) || (known(one) && missing(other)) ? FROM_MEMORY : 0
}

function trust(one: { readonly memory: boolean }, other: { readonly memory: boolean }): number {
  return one.memory || other.memory ? FROM_MEMORY : 1
}

type Splits = WeakMap<Taxon, WeakMap<Taxon, number>>
const known = new WeakMap<readonly Character[], Splits>()

/** The same two plants are compared once, however many tables they stand in: a trial leaves each plant out in turn. */
function splitOf(characters: readonly Character[], one: Taxon, other: Taxon): number {
  const splits: Splits = known.get(characters) ?? new WeakMap()
  known.set(characters, splits)
  const ofOne = splits.get(one) ?? new WeakMap<Taxon, number>()
  splits.set(one, ofOne)
  const found = ofOne.get(other) ?? splitBetween(characters, one, other)
  ofOne.set(other, found)
  return found
}

/**
 * For each turf (by its place in the data) the plants that the plain look of mown turf does not tell from it. Worked
 * out from the table, so that a cell that is looked up joins or parts a pair by itself.
 */
export function unsplitPairs(key: KeyData): ReadonlyMap<number, ReadonlySet<number>> {
  const pairs = new Map<number, ReadonlySet<number>>()
  key.taxa.forEach((turf, index) => {
    if (turf.role === 'weed') return
    const alike = key.taxa.flatMap((other, at) =>
      at !== index && splitOf(key.characters, turf, other) < SPLIT ? [at] : [],
    )
    pairs.set(index, new Set(alike))
  })
  return pairs
}
