/**
 * A small language for what people say. Elements stand in a row, separated by spaces:
 * `word`, `a|b|@group` one of these; `x?` may be missing; `x*` up to six of these; `..3` up to three words of any
 * kind; `!x` the next word is none of these; `^` and `$` the clause begins or ends here.
 */
export interface Pattern {
  readonly source: string
  /** Finds the first place: index of the first word and of the one behind the last. */
  readonly find: (words: readonly Meanings[]) => { readonly from: number; readonly to: number } | null
  /** All words that the pattern speaks of, groups resolved. */
  readonly words: ReadonlySet<string>
}

/** The known words that a typed word may stand for; null where a calm phrase was taken out. */
export type Meanings = ReadonlySet<string> | null

interface Element {
  readonly kind: 'words' | 'gap' | 'not' | 'start' | 'end'
  readonly words: ReadonlySet<string>
  readonly least: number
  readonly most: number
}

const MOST_REPEATED = 6

/** @throws Error naming a group that does not exist */
export function readPattern(source: string, groups: ReadonlyMap<string, readonly string[]>): Pattern {
  const elements = source.split(' ').map((part) => readElement(part, source, groups))
  return {
    source,
    words: new Set(elements.flatMap((element) => [...element.words])),
    find(words) {
      for (let from = 0; from < words.length; from++) {
        const to = matchFrom(elements, 0, words, from)
        if (to !== null && to > from) return { from, to }
      }
      return null
    },
  }
}

function readElement(part: string, source: string, groups: ReadonlyMap<string, readonly string[]>): Element {
  const none = new Set<string>()
  if (part === '^') return { kind: 'start', words: none, least: 0, most: 0 }
  if (part === '$') return { kind: 'end', words: none, least: 0, most: 0 }
  const gap = /^\.\.(\d)$/.exec(part)
  if (gap !== null) return { kind: 'gap', words: none, least: 0, most: Number(gap[1]) }
  const form = /^(!?)([a-z0-9@|-]+)([*?]?)$/.exec(part)
  if (form === null) throw new Error(`Cannot read "${part}" in the pattern "${source}"`)
  const words = new Set(
    (form[2] ?? '').split('|').flatMap((name) => {
      if (!name.startsWith('@')) return [name]
      const group = groups.get(name.slice(1))
      if (group === undefined) throw new Error(`Cannot find the group "${name}" of the pattern "${source}"`)
      return group
    }),
  )
  if (form[1] === '!') return { kind: 'not', words, least: 0, most: 0 }
  const most = form[3] === '*' ? MOST_REPEATED : 1
  return { kind: 'words', words, least: form[3] === '' ? 1 : 0, most }
}

function matchFrom(
  elements: readonly Element[],
  step: number,
  words: readonly Meanings[],
  at: number,
): number | null {
  const element = elements[step]
  if (element === undefined) return at
  if (element.kind === 'start') return at === 0 ? matchFrom(elements, step + 1, words, at) : null
  if (element.kind === 'end') return at === words.length ? matchFrom(elements, step + 1, words, at) : null
  if (element.kind === 'not') {
    return fits(element, words[at]) ? null : matchFrom(elements, step + 1, words, at)
  }
  for (let taken = 0; taken <= element.most; taken++) {
    if (taken > 0 && !takes(element, words, at + taken - 1)) return null
    if (taken < element.least) continue
    const end = matchFrom(elements, step + 1, words, at + taken)
    if (end !== null) return end
  }
  return null
}

function takes(element: Element, words: readonly Meanings[], at: number): boolean {
  const word = words[at]
  if (word === undefined || word === null) return false
  return element.kind === 'gap' || fits(element, word)
}

function fits(element: Element, word: Meanings | undefined): boolean {
  if (word === undefined || word === null) return false
  for (const meaning of word) if (element.words.has(meaning)) return true
  return false
}
