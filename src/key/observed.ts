import { besideSpan, measured, saysLength } from './measured.ts'
import type { Character, KeyData } from './schema.ts'
import { plain, stemOf, tellingWords } from './text.ts'
import {
  charactersNamed,
  type Sense,
  sensesOf,
  stateNamed,
  stateSurely,
  type Vocabulary,
  vocabularyOf,
} from './vocabulary.ts'
import type { Answer } from './walk.ts'

/** What could not be understood: the words as typed and, where they help, what would be. */
export type ObservedProblem =
  | { readonly kind: 'unknown-character'; readonly text: string }
  | {
      readonly kind: 'unknown-state'
      readonly text: string
      readonly character: string
      readonly allowed: readonly string[]
    }
  | { readonly kind: 'ambiguous'; readonly text: string; readonly characters: readonly string[] }
  | { readonly kind: 'not-a-number'; readonly text: string; readonly character: string }
  | { readonly kind: 'twice'; readonly text: string; readonly character: string }

export type Observed = { readonly answers: readonly Answer[]; readonly problems: readonly ObservedProblem[] }

type Read =
  | { readonly ok: true; readonly value: Answer }
  | { readonly ok: false; readonly error: ObservedProblem }

/**
 * Reads what a person has seen: `vernation=folded; blade_width_mm=6` with ids, or everyday words such as
 * "folded, stolons, blade 6 mm, no seed head". Semicolons part the answers, commas too where no `=` stands.
 * Everything that was understood is returned beside every problem.
 */
export function parseObserved(key: KeyData, text: string): Observed {
  const vocabulary = vocabularyOf(key)
  const answers: Answer[] = []
  const problems: ObservedProblem[] = []
  for (const part of parts(text)) {
    const read = readPart(vocabulary, part)
    if (!read.ok) problems.push(read.error)
    else if (answers.some((one) => one.character === read.value.character)) {
      const merged = merge(key, answers, read.value)
      if (!merged) problems.push({ kind: 'twice', text: part, character: read.value.character })
    } else answers.push(read.value)
  }
  return { answers, problems }
}

function parts(text: string): string[] {
  return text
    .split(/[;\n]/)
    .flatMap((part) => {
      const equals = part.match(/[=:]/g)?.length ?? 0
      if (equals === 1) return [part]
      return part.split(equals === 0 ? /,(?!\d)|\b(?:and|y) (?=no |the |sin |el |la |los |las )/ : /,/)
    })
    .map((part) => part.trim())
    .filter((part) => part !== '')
}

/** Two answers on a character of which several states may hold are one answer. */
function merge(key: KeyData, answers: Answer[], added: Answer): boolean {
  const kind = key.characters.find((one) => one.id === added.character)?.kind
  const at = answers.findIndex((one) => one.character === added.character)
  const former = answers[at]
  if (former?.kind !== 'states' || added.kind !== 'states') return false
  const same = added.states.every((state) => former.states.includes(state))
  if (kind !== 'many' && kind !== 'hallmark' && !same) return false
  answers[at] = { ...former, states: [...new Set([...former.states, ...added.states])] }
  return true
}

function readPart(vocabulary: Vocabulary, part: string): Read {
  const match = /^([^=:]+)[=:](.*)$/.exec(part)
  if (match === null) return readPhrase(vocabulary, part)
  const name = (match[1] ?? '').trim()
  const characters = charactersNamed(vocabulary, name)
  const reads = characters.map((character) => readValue(character, (match[2] ?? '').trim()))
  const first = reads[0] ?? { ok: false, error: { kind: 'unknown-character', text: name } }
  return reads.find((read) => read.ok) ?? first
}

const CANT_TELL =
  /^(\?+|cant tell|can not tell|cannot tell|dont know|do not know|not sure|unsure|unknown|no se|no lo se|no se ve|no se sabe|no se distingue|no estoy segur[oa]|quien sabe|desconocid[oa])$/
const NO_SUCH_PART =
  /^(absent|none|no|na|n a|has none|no such part|missing|not there|no tiene|no hay|no trae|sin|ningun[oa]?|nada|falta)$/
/** A part that is not there, before its name: `no seed head`, `sin espiga`, `no tiene lígula`. */
const WITHOUT = /^(no tiene|no tienen|no hay|no trae|no|not|none|without|sin|ningun[oa]?)\b ?/

/** Reads a value of a known character: states, a number with or without unit, "absent", "can't tell". */
export function readValue(character: Character, text: string): Read {
  const id = character.id
  const words = plain(text)
  if (text.trim() === '' || /^\?+$/.test(text.trim()) || CANT_TELL.test(words)) {
    return { ok: true, value: { kind: 'cant-tell', character: id } }
  }
  const whole = stateNamed(character, text)
  if (whole !== undefined) return { ok: true, value: { kind: 'states', character: id, states: [whole.id] } }
  if (character.grid !== undefined) {
    const span = measured(text, character)
    if (span !== undefined) return { ok: true, value: { kind: 'range', character: id, ...span } }
  }
  if (NO_SUCH_PART.test(words)) return { ok: true, value: noPart(character) }
  if (character.grid !== undefined) {
    return { ok: false, error: { kind: 'not-a-number', text, character: id } }
  }
  return readStates(character, text)
}

function noPart(character: Character): Answer {
  const none = character.states.find((state) => state.neutral === true)
  return character.part !== undefined && none !== undefined
    ? { kind: 'states', character: character.id, states: [none.id] }
    : { kind: 'absent', character: character.id }
}

/** Several states named together: `stolons and rhizomes`, `estolones y rizomas`. */
const BETWEEN = /[,|/+&]|\b(?:or|and|o|u|y|e)\b/

function readStates(character: Character, text: string): Read {
  const pieces = text.split(BETWEEN).filter((piece) => piece.trim() !== '')
  const states = pieces.map((piece) => stateNamed(character, piece))
  const found = states.flatMap((state) => state?.id ?? [])
  if (found.length === pieces.length && found.length > 0) {
    return { ok: true, value: { kind: 'states', character: character.id, states: [...new Set(found)] } }
  }
  const unclear = pieces.find((_, index) => states[index] === undefined) ?? text
  const allowed = character.states.map((state) => state.id)
  return {
    ok: false,
    error: { kind: 'unknown-state', text: unclear.trim(), character: character.id, allowed },
  }
}

/** Reads words without a character's name in front: "folded", "no seed head", "blade 6 mm wide", "blunt tip". */
function readPhrase(vocabulary: Vocabulary, part: string): Read {
  const senses = sameSense(sensesOf(vocabulary, part))
  const [sense, ...others] = senses
  if (sense !== undefined && others.length === 0) {
    return {
      ok: true,
      value: { kind: 'states', character: sense.character.id, states: [sense.state.id] },
    }
  }
  const named = readNamed(vocabulary, part)
  if (named?.ok) return named
  const several = readSeveral(vocabulary, part)
  if (several !== undefined) return several
  if (named !== undefined) return named
  if (sense !== undefined) {
    const characters = senses.map((one) => one.character.id)
    return { ok: false, error: { kind: 'ambiguous', text: part, characters } }
  }
  return { ok: false, error: { kind: 'unknown-character', text: part } }
}

/** "rhizomes" is how a plant spreads and what is found below it, "rosette" how it grows and how its leaves sit: one sight. */
function sameSense(senses: readonly Sense[]): readonly Sense[] {
  const [first] = senses
  const spreading = senses.find(({ character }) => character.kind === 'many')
  if (first === undefined || spreading === undefined || first.state.absence === true) return senses
  return senses.every(({ state }) => state.id === first.state.id && state.id !== 'none')
    ? [spreading]
    : senses
}

/** "stolons and rhizomes": states of one character, named together. */
function readSeveral(vocabulary: Vocabulary, part: string): Read | undefined {
  const pieces = part.split(BETWEEN).filter((piece) => piece.trim() !== '')
  if (pieces.length < 2) return undefined
  const found = pieces.map((piece) => sensesOf(vocabulary, piece))
  const shared = found[0]?.find(({ character }) =>
    found.every((senses) => senses.some((sense) => sense.character === character)),
  )?.character
  return shared === undefined ? undefined : readStates(shared, part)
}

type NamedRead = {
  readonly character: Character
  readonly words: number
  readonly read: Read
  readonly sure: boolean
}

/** Words that hold the name of a character: the rest is its value. The longest name counts; two as long are not guessed at. */
function readNamed(vocabulary: Vocabulary, part: string): Read | undefined {
  const reads = vocabulary.characters.flatMap((named): NamedRead[] => {
    const rest = wordsBeside(named, part)
    if (rest === undefined) return []
    const { character } = named
    const words = named.stems.length
    if (named.withNumber) {
      const read = readSpan(character, rest, part)
      return read === undefined ? [] : [{ character, words, read, sure: false }]
    }
    const tries = [rest, withoutFillers(rest)].map((text) => readRest(character, text, part))
    const read = tries.find((one) => one.ok) ?? tries[0]
    const sure = [rest, withoutFillers(rest)].some((text) => stateSurely(character, text) !== undefined)
    return read === undefined ? [] : [{ character, words, read, sure }]
  })
  const good = reads.filter(({ read }) => read.ok)
  const [first] = good
  if (first === undefined) return refusalOf(reads)
  const sure = good.filter((one) => one.sure && one.words === first.words)
  const characters = [...new Set(sure.map(({ character }) => character.id))]
  if (characters.length > 1) return { ok: false, error: { kind: 'ambiguous', text: part, characters } }
  return (sure[0] ?? first).read
}

/** "leaf" names so many characters that what would be understood of one of them helps nobody. */
const MANY_CHARACTERS = 3

function refusalOf(reads: readonly NamedRead[]): Read | undefined {
  const [first] = reads
  const meant = reads.filter(({ words }) => words === first?.words).map(({ character }) => character)
  return new Set(meant).size < MANY_CHARACTERS ? first?.read : undefined
}

/** What stands beside the name of a character, in the order typed; undefined where the name does not stand there. */
function wordsBeside({ word, stems }: Vocabulary['characters'][number], part: string): string | undefined {
  const typed = ` ${plain(part)} `
  if (typed.includes(` ${word} `)) return typed.replace(` ${word} `, ' ').trim()
  if (stems.length === 0) return undefined
  const left = typed.trim().split(' ')
  for (const stem of stems) {
    const at = left.findIndex((one) => stemOf(one) === stem)
    if (at < 0) return undefined
    left.splice(at, 1)
  }
  return left.join(' ')
}

/** A number beside a name, in the unit of the character; a problem where the words beside it speak of something else. */
function readSpan(character: Character, rest: string, part: string): Read | undefined {
  if (character.grid === undefined) return undefined
  const notIts: Read = { ok: false, error: { kind: 'not-a-number', text: part, character: character.id } }
  const words = tellingWords(part)
  if (character.notWith?.some((word) => words.includes(plain(word)))) return notIts
  const span = measured(part, character)
  if (span === undefined) return undefined
  // "leaves in 3 rows" and "blade with 5 ribs" count something else.
  const isLength = character.id.endsWith('_mm')
  if (isLength && !saysLength(part) && besideSpan(withoutFillers(rest)) !== '') return notIts
  return { ok: true, value: { kind: 'range', character: character.id, ...span } }
}

const FILLERS =
  /\b(is|are|the|a|an|has|have|with|at|in|of|wide|tall|long|high|about|only|some|very|es|son|esta|estan|el|la|los|las|un|una|unos|unas|de|del|en|con|tiene|tienen|mide|miden|como|muy|solo|ancho|alto|largo)\b/g

function withoutFillers(words: string): string {
  return words.replace(FILLERS, ' ').replace(/ +/g, ' ').trim()
}

function readRest(character: Character, rest: string, part: string): Read {
  const span = readSpan(character, rest, part)
  if (span !== undefined) return span
  if (WITHOUT.test(rest)) {
    const bare = stateNamed(character, rest.replace(WITHOUT, '')) === undefined
    if (bare || rest === 'none') return readValue(character, 'none')
  }
  if (rest === '')
    return {
      ok: false,
      error: {
        kind: 'unknown-state',
        text: part,
        character: character.id,
        allowed: character.states.map((state) => state.id),
      },
    }
  return readValue(character, rest)
}
