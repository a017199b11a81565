import { remember } from '#src/memory/remember.ts'
import { type Element, type Meanings, type Pattern, readPattern } from './pattern.ts'
import { type Clause, readClauses } from './tokens.ts'
import { buildGuess, type Guess } from './typos.ts'
import { EmergencyKind, type EmergencyWords } from './words.ts'

/** Words of alarm in a text: what kind, and the words themselves as they were typed. */
export interface Emergency {
  readonly kind: EmergencyKind
  readonly matched: string
}

export type FindEmergency = (text: string) => Emergency | null

/**
 * Builds the finder from the word files of all languages. It looks for what happened to a person; what is said of
 * plants, tools and labels is taken out first. In doubt it fires: a card too many costs a moment.
 * @throws Error for a pattern that cannot be read
 */
export function buildEmergencyFinder(files: readonly EmergencyWords[]): FindEmergency {
  const groups = joinGroups(files)
  const elements = new Map<string, Element>()
  const read = (source: string) => readPattern(source, groups, elements)
  const printed = files.flatMap((file) => file.printed).map(read)
  const calm = files.flatMap((file) => file.calm).map(read)
  const ofKind = (kind: EmergencyKind, from: 'alarms' | 'sure') =>
    files.flatMap((file) => file[from]?.[kind] ?? []).map(read)
  const kinds = EmergencyKind.options.map((kind) => ({
    kind,
    sure: ofKind(kind, 'sure'),
    alarms: ofKind(kind, 'alarms'),
  }))
  // Its index of slips takes longer than the rest of a start, and the first text that is looked through needs it.
  let built: Guess | null = null
  const guess: Guess = (typed) => {
    built ??= buildGuess(wordsOf(elements), new Set(files.flatMap((file) => file.ordinary)))
    return built(typed)
  }

  return remembering((text) => {
    const clauses = readClauses(text).map((clause) => {
      const typed = clause.map((token): Meanings => new Set(guess(token.word)))
      const words = takeOut(typed, printed)
      return { clause, words, rest: takeOut(words, calm) }
    })
    for (const { kind, sure, alarms } of kinds) {
      for (const { clause, words, rest } of clauses) {
        const place = findFirst(sure, words) ?? findFirst(alarms, rest)
        if (place !== null) return { kind, matched: quote(text, clause, place) }
      }
    }
    return null
  })
}

/** All words that patterns speak of. */
function wordsOf(elements: ReadonlyMap<string, Element>): Set<string> {
  return new Set([...elements.values()].flatMap(({ words }) => [...words]))
}

/** What a crew types is mostly what it typed before: names, rates, times. */
function remembering(find: FindEmergency): FindEmergency {
  const known = remember(find, MOST_REMEMBERED)
  return (text) => (text.length <= LONGEST_REMEMBERED ? known(text) : find(text))
}
const MOST_REMEMBERED = 2000
const LONGEST_REMEMBERED = 100

function joinGroups(files: readonly EmergencyWords[]): Map<string, readonly string[]> {
  const groups = new Map<string, readonly string[]>()
  for (const file of files) {
    for (const [name, words] of Object.entries(file.groups)) {
      groups.set(name, [...(groups.get(name) ?? []), ...words])
    }
  }
  return groups
}

/** The clause without its calm phrases: nothing matches in their place, and no pattern reaches over them. */
function takeOut(words: readonly Meanings[], calm: readonly Pattern[]): Meanings[] {
  const rest = [...words]
  const present = presentIn(words)
  for (const pattern of calm) {
    if (!pattern.mayFit(present)) continue
    for (let place = pattern.find(rest); place !== null; place = pattern.find(rest)) {
      rest.fill(null, place.from, place.to)
    }
  }
  return rest
}

function findFirst(patterns: readonly Pattern[], words: readonly Meanings[]) {
  const present = presentIn(words)
  for (const pattern of patterns) {
    const place = pattern.mayFit(present) ? pattern.find(words) : null
    if (place !== null) return place
  }
  return null
}

function presentIn(words: readonly Meanings[]): ReadonlySet<string> {
  return new Set(words.flatMap((meanings) => [...(meanings ?? [])]))
}

function quote(text: string, clause: Clause, place: { readonly from: number; readonly to: number }): string {
  return text.slice(clause[place.from]?.start, clause[place.to - 1]?.end)
}
