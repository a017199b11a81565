/** Words shorter than this are only taken as written: too many ordinary words lie one slip away. */
const SHORTEST_GUESSED = 5

/** From this length on, two slips are forgiven. */
const LONG_WORD = 9
const MOST_FORGIVEN = 2

/** Gives the known words that a typed word may stand for: itself, else what it sounds like, else slips away. */
export type Guess = (typed: string) => readonly string[]

/**
 * @param known all words that patterns speak of
 * @param ordinary words that are never taken for a slip
 */
export function buildGuess(known: Iterable<string>, ordinary: ReadonlySet<string>): Guess {
  const words = new Set(known)
  const longest = Math.max(...Array.from(words, (word) => word.length)) + MOST_FORGIVEN
  const bySound = indexBy(words, (word) => [soundOf(word)])
  const bySlip = indexBy(
    [...words].filter((word) => word.length >= SHORTEST_GUESSED),
    shortened,
  )
  return (typed) => {
    if (words.has(typed)) return [typed]
    if (ordinary.has(typed) || typed.length < SHORTEST_GUESSED - 1) return []
    const alike = bySound.get(soundOf(typed))
    if (alike !== undefined) return alike
    // No known word is so long; all forms of a word of a thousand letters would fill the memory.
    if (typed.length > longest) return []
    const near = new Set(shortened(typed).flatMap((form) => bySlip.get(form) ?? []))
    return nearest(typed, near)
  }
}

/**
 * Only the nearest words: `swalloed` is swallowed, one slip away, and not swallow, two slips away. Among equally near
 * ones the longest, since letters are left out more often than put in: `swallowd` is swallowed.
 */
function nearest(typed: string, words: Iterable<string>): string[] {
  const close = Array.from(words, (word) => ({ word, slips: slips(typed, word) })).filter(
    (one) => typed[0] === one.word[0] && one.slips <= forgiven(typed, one.word),
  )
  const least = Math.min(...close.map((one) => one.slips))
  const nearestWords = close.filter((one) => one.slips === least).map((one) => one.word)
  const longest = Math.max(...nearestWords.map((word) => word.length))
  return nearestWords.filter((word) => word.length === longest)
}

/** One slip of the finger, two in a long word; people seldom miss the first letter. */
function forgiven(typed: string, word: string): number {
  return Math.min(typed.length, word.length) >= LONG_WORD - 1 ? MOST_FORGIVEN : 1
}

function indexBy(
  words: Iterable<string>,
  keysOf: (word: string) => readonly string[],
): Map<string, string[]> {
  const index = new Map<string, string[]>()
  for (const word of words) {
    for (const key of keysOf(word)) index.set(key, [...(index.get(key) ?? []), word])
  }
  return index
}

/** The word and all its forms with up to two letters left out (one, for a short word). */
function shortened(word: string): string[] {
  const once = leaveOneOut(word)
  const twice = word.length >= LONG_WORD - 1 ? once.flatMap(leaveOneOut) : []
  return [...new Set([word, ...once, ...twice])]
}

function leaveOneOut(word: string): string[] {
  return Array.from(word, (_, at) => word.slice(0, at) + word.slice(at + 1))
}

/** Spelling by ear in Spanish and doubled letters: `bomito`, `desmallo`, `mareádo`, `vommit`. */
function soundOf(word: string): string {
  return word
    .replace(/ll/g, 'y')
    .replace(/(.)\1/g, '$1')
    .replace(/b/g, 'v')
    .replace(/z|c(?=[ei])/g, 's')
    .replace(/qu(?=[ei])|c(?!h)/g, 'k')
    .replace(/(^|[^cs])h/g, '$1')
}

/** Edits between two words: a letter put in, left out, changed, or two neighbors swapped. */
export function slips(a: string, b: string): number {
  let before: number[] = []
  let last = Array.from({ length: b.length + 1 }, (_, at) => at)
  for (let i = 1; i <= a.length; i++) {
    const row = [i]
    for (let j = 1; j <= b.length; j++) {
      const change = (last[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1)
      let least = Math.min(change, (last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1)
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        least = Math.min(least, (before[j - 2] ?? 0) + 1)
      }
      row.push(least)
    }
    before = last
    last = row
  }
  return last[b.length] ?? 0
}
