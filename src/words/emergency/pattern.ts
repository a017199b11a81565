/**
 * A small language for what people say. Elements stand in a row, separated by spaces:
 * `word`, `a|b|@group` one of these; `x?` may be missing; `x*` up to six of these; `..3` up to three words of any
 * kind; `!x` the next word is none of these; `^` and `$` the clause begins or ends here, `a|$` the
 * word or the end.
 */
export interface Pattern {
  readonly source: string
  /** Finds the first place: index of the first word and of the one behind the last. */
  readonly find: (words: readonly Meanings[]) => { readonly from: number; readonly to: number } | null
  /** False when a word that the pattern cannot do without is absent: saves looking closer. */
  readonly mayFit: (present: ReadonlySet<string>) => boolean
}

/** The known words that a typed word may stand for; null where a calm phrase was taken out. */
export type Meanings = ReadonlySet<string> | null

/** One part of a pattern, with its groups resolved. */
export interface Element {
  readonly kind: 'words' | 'gap' | 'not' | 'start' | 'end'
  readonly words: ReadonlySet<string>
  readonly least: number
  readonly most: number
  /** The end of the clause will do as well: `$` among the words. */
  readonly orEnd: boolean
}

const MOST_REPEATED = 6

/**
 * @param known elements that were read before with the same groups: most stand in many patterns
 * @throws Error naming a group that does not exist
 */
export function readPattern(
  source: string,
  groups: ReadonlyMap<string, readonly string[]>,
  known = new Map<string, Element>(),
): Pattern {
  const elements = source.split(' ').map((part) => {
    const element = known.get(part) ?? readElement(part, source, groups)
    known.set(part, element)
    return element
  })
  const needed = elements.filter(({ kind, least, orEnd }) => kind === 'words' && least > 0 && !orEnd)
  return {
    source,
    mayFit: (present) => needed.every((element) => fits(element, present)),
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
  const none = { words: new Set<string>(), least: 0, most: 0, orEnd: false }
  if (part === '^') return { ...none, kind: 'start' }
  if (part === '$') return { ...none, kind: 'end' }
  const gap = /^\.\.(\d)$/.exec(part)
  if (gap !== null) return { ...none, kind: 'gap', most: Number(gap[1]) }
  const form = /^(!?)([a-z0-9@|$-]+)([*?]?)$/.exec(part)
  if (form === null) throw new Error(`Cannot read "${part}" in the pattern "${source}"`)
  const names = (form[2] ?? '').split('|')
  const words = new Set(
    names.flatMap((name) => {
      if (name === '$') return []
      if (!name.startsWith('@')) return [name]
      const group = groups.get(name.slice(1))
      if (group === undefined) throw new Error(`Cannot find the group "${name}" of the pattern "${source}"`)
      return group
    }),
  )
  const orEnd = names.includes('$')
  if (form[1] === '!') return { kind: 'not', words, least: 0, most: 0, orEnd }
  const most = form[3] === '*' ? MOST_REPEATED : 1
  return { kind: 'words', words, least: form[3] === '' ? 1 : 0, most, orEnd }
}

function matchFrom(
  elements: readonly Element[],
  step: number,
  words: readonly Meanings[],
  at: number,
): number | null {
  const element = elements[step]
  if (element === undefined) return at
  const isEnd = at === words.length
  if (element.kind === 'start') return at === 0 ? matchFrom(elements, step + 1, words, at) : null
  if (element.kind === 'end') return isEnd ? matchFrom(elements, step + 1, words, at) : null
  if (element.kind === 'not') {
    return fits(element, words[at]) || (element.orEnd && isEnd)
      ? null
      : matchFrom(elements, step + 1, words, at)
  }
  if (element.orEnd && isEnd) return matchFrom(elements, step + 1, words, at)
  const most = runOf(element, words, at)
  // A gap takes as little as it can, repeated words as much as they can.
  for (let i = element.least; i <= most; i++) {
    const taken = element.kind === 'gap' ? i : most + element.least - i
    const end = matchFrom(elements, step + 1, words, at + taken)
    if (end !== null) return end
  }
  return null
}

/** How many words from here on the element can take. */
function runOf(element: Element, words: readonly Meanings[], at: number): number {
  let run = 0
  while (run < element.most && takes(element, words, at + run)) run++
  return run
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
