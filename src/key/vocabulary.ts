import type { Character, KeyData, State } from './schema.ts'
import { bagOf, plain, stemOf, tellingWords, typosBetween } from './text.ts'

export type Sense = { readonly character: Character; readonly state: State }

type Named = {
  readonly word: string
  readonly stems: readonly string[]
  readonly character: Character
  /** It names the character only beside a number. */
  readonly withNumber: boolean
}

/** Everyday words for characters and states of one key; `bags` holds phrases without their order, number and gender. */
export type Vocabulary = {
  readonly characters: readonly Named[]
  readonly senses: ReadonlyMap<string, readonly Sense[]>
  readonly bags: ReadonlyMap<string, readonly Sense[]>
}

const vocabularies = new WeakMap<KeyData, Vocabulary>()

export function vocabularyOf(key: KeyData): Vocabulary {
  const known = vocabularies.get(key)
  if (known !== undefined) return known
  const vocabulary = build(key)
  vocabularies.set(key, vocabulary)
  return vocabulary
}

function build(key: KeyData): Vocabulary {
  const characters = key.characters.flatMap((character) => [
    ...[character.id, ...character.aka].map((word) => namedBy(word, character, false)),
    ...(character.partOfNumber ?? []).map((word) => namedBy(word, character, true)),
  ])
  const senses = new Map<string, Sense[]>()
  const bags = new Map<string, Sense[]>()
  for (const character of key.characters) {
    for (const state of character.states) {
      const words = [state.id, ...state.aka]
      for (const word of new Set(words.map(plain))) add(senses, word, { character, state })
      for (const bag of new Set(words.map(bagOf))) add(bags, bag, { character, state })
    }
  }
  bags.delete('')
  return {
    characters: characters
      .filter(({ word }) => word !== '')
      .sort((a, b) => b.stems.length - a.stems.length || b.word.length - a.word.length),
    senses,
    bags,
  }
}

function namedBy(word: string, character: Character, withNumber: boolean): Named {
  return { word: plain(word), stems: tellingWords(word).map(stemOf), character, withNumber }
}

function add(map: Map<string, Sense[]>, word: string, sense: Sense): void {
  map.set(word, [...(map.get(word) ?? []), sense])
}

/** The characters that a word means, typos allowed: "ligule" may be its kind or its height. */
export function charactersNamed(vocabulary: Vocabulary, text: string): readonly Character[] {
  const wanted = plain(text)
  const exact = vocabulary.characters
    .filter((one) => one.word === wanted && !one.withNumber)
    .map((one) => one.character)
  if (exact.length > 0) return exact
  const near = closest(
    wanted,
    vocabulary.characters.map((one) => ({ word: one.word, value: one.character })),
  )
  return near === undefined ? [] : [near]
}

/** The state of a character that a word means: its id, an everyday word, or one with a typo. */
export function stateNamed(character: Character, text: string): State | undefined {
  const sure = stateSurely(character, text)
  if (sure !== undefined) return sure
  return closest(
    plain(text),
    wordsOf(character).map(({ word, state }) => ({ word, value: state })),
  )
}

/** The same without typos: the word itself, or its words in another order, number or gender if that is one state only. */
export function stateSurely(character: Character, text: string): State | undefined {
  const wanted = plain(text)
  const words = wordsOf(character)
  const exact = words.find(({ word }) => word === wanted)?.state
  const bag = bagOf(text)
  if (exact !== undefined || bag === '') return exact
  const [state, ...others] = new Set(words.filter((one) => one.bag === bag).map((one) => one.state))
  return others.length === 0 ? state : undefined
}

type StateWord = { readonly word: string; readonly bag: string; readonly state: State }

/** The words of a table do not change: they are brought into shape once. */
const stateWords = new WeakMap<Character, readonly StateWord[]>()

function wordsOf(character: Character): readonly StateWord[] {
  const known = stateWords.get(character)
  if (known !== undefined) return known
  const made = character.states.flatMap((state) => {
    const { id, aka, withPart = [], words } = state
    const all = [id, ...aka, ...withPart, ...(words.en.length <= 40 ? [words.en] : [])]
    return all.map((word): StateWord => ({ word: plain(word), bag: bagOf(word), state }))
  })
  stateWords.set(character, made)
  return made
}

/** Every state of any character that these words mean exactly. */
export function sensesOf(vocabulary: Vocabulary, text: string): readonly Sense[] {
  const wanted = plain(text).replace(/^(an?|the|el|la|los|las|una?|unos|unas|con|tiene) /, '')
  const exact = vocabulary.senses.get(plain(text)) ?? vocabulary.senses.get(wanted)
  if (exact !== undefined) return exact
  const inOtherOrder = vocabulary.bags.get(bagOf(text))
  if (inOtherOrder !== undefined) return inOtherOrder
  const words = [...vocabulary.senses.keys()].map((word) => ({ word, value: word }))
  const near = closest(wanted, words)
  return near === undefined ? [] : (vocabulary.senses.get(near) ?? [])
}

function closest<T>(
  wanted: string,
  words: readonly { readonly word: string; readonly value: T }[],
): T | undefined {
  let best: { readonly typos: number; readonly value: T } | undefined
  for (const { word, value } of words) {
    const typos = typosBetween(wanted, word)
    if (typos !== undefined && (best === undefined || typos < best.typos)) best = { typos, value }
  }
  return best?.value
}
