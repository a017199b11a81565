import type { Character, KeyData, State } from './schema.ts'
import { allowedTypos, editDistance, plain } from './text.ts'

export type Sense = { readonly character: Character; readonly state: State }

/** Everyday words for characters and states of one key. */
export type Vocabulary = {
  readonly characters: readonly { readonly word: string; readonly character: Character }[]
  readonly senses: ReadonlyMap<string, readonly Sense[]>
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
  const characters = key.characters.flatMap((character) =>
    [character.id, ...character.aka].map((word) => ({ word: plain(word), character })),
  )
  const senses = new Map<string, Sense[]>()
  for (const character of key.characters) {
    for (const state of character.states) {
      for (const word of new Set([state.id, ...state.aka].map(plain))) {
        senses.set(word, [...(senses.get(word) ?? []), { character, state }])
      }
    }
  }
  return { characters: characters.sort((a, b) => b.word.length - a.word.length), senses }
}

/** The characters that a word means, typos allowed: "ligule" may be its kind or its height. */
export function charactersNamed(vocabulary: Vocabulary, text: string): readonly Character[] {
  const wanted = plain(text)
  const exact = vocabulary.characters.filter((one) => one.word === wanted).map((one) => one.character)
  if (exact.length > 0) return exact
  const near = closest(
    wanted,
    vocabulary.characters.map((one) => ({ word: one.word, value: one.character })),
  )
  return near === undefined ? [] : [near]
}

/** The state of a character that a word means: its id, an everyday word, or one with a typo. */
export function stateNamed(character: Character, text: string): State | undefined {
  const wanted = plain(text)
  const words = character.states.flatMap((state) =>
    [state.id, ...state.aka, ...(state.words.en.length <= 40 ? [state.words.en] : [])].map((word) => ({
      word: plain(word),
      value: state,
    })),
  )
  const exact = words.find((one) => one.word === wanted)
  return exact === undefined ? closest(wanted, words) : exact.value
}

/** Every state of any character that these words mean exactly. */
export function sensesOf(vocabulary: Vocabulary, text: string): readonly Sense[] {
  const wanted = plain(text).replace(/^(an?|the|el|la|los|las|una?|unos|unas|con|tiene) /, '')
  const exact = vocabulary.senses.get(plain(text)) ?? vocabulary.senses.get(wanted)
  if (exact !== undefined) return exact
  const words = [...vocabulary.senses.keys()].map((word) => ({ word, value: word }))
  const near = closest(wanted, words)
  return near === undefined ? [] : (vocabulary.senses.get(near) ?? [])
}

function closest<T>(
  wanted: string,
  words: readonly { readonly word: string; readonly value: T }[],
): T | undefined {
  const most = allowedTypos(wanted)
  if (most === 0) return undefined
  let best: { readonly edits: number; readonly value: T } | undefined
  for (const { word, value } of words) {
    const edits = editDistance(wanted, word, Math.min(most, allowedTypos(word)))
    if (edits <= most && edits <= allowedTypos(word) && (best === undefined || edits < best.edits)) {
      best = { edits, value }
    }
  }
  return best?.value
}
