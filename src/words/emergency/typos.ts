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
  const bySlip = slipIndex([...words].filter((word) => word.length >= SHORTEST_GUESSED))
  return (typed) => {
    if (words.has(typed)) return [typed]
    if (ordinary.has(typed) || typed.length < SHORTEST_GUESSED - 1) return []
    const alike = bySound.get(soundOf(typed))
    if (alike !== undefined) return alike
    // No known word is so long; all forms of a word of a thousand letters would fill the memory.
    if (typed.length > longest) return []
    return nearest(typed, new Set(formsOf(typed).flatMap(bySlip)))
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

/**
 * The words that a form may come from. Forms are kept as numbers, in a tenth of the memory: where two have the same one, a
 * word comes along that is too many slips away.
 */
function slipIndex(words: readonly string[]): (form: number) => string[] {
  const places = Float64Array.from(
    words.flatMap((word, at) => formsOf(word).map((form) => form * MOST_WORDS + at)),
  ).sort()
  return (form) => {
    const first = form * MOST_WORDS
    const found = []
    for (let at = firstFrom(places, first); (places[at] ?? Number.NaN) < first + MOST_WORDS; at += 1)
      found.push(words[(places[at] ?? 0) - first] ?? '')
    return found
  }
}
/** With 32 bits of a form it stays a whole number that a double holds. */
const MOST_WORDS = 2 ** 20

/** Index of the first value that is not smaller. */
function firstFrom(sorted: Float64Array, least: number): number {
  let [low, high] = [0, sorted.length]
  while (low < high) {
    const middle = (low + high) >>> 1
    if ((sorted[middle] ?? 0) < least) low = middle + 1
    else high = middle
  }
  return low
}

/**
 * The word and all its forms with up to two letters left out (one, for a short word), each as a number: FNV-1a, 32 bits.
 * No form is written out: the words that patterns speak of have 35,000, which the first text would wait for.
 */
function formsOf(word: string): number[] {
  const forms: number[] = []
  const isLong = word.length >= LONG_WORD - 1
  let before = 0x811c9dc5
  for (let one = 0; one < word.length; one += 1) {
    let between = before
    for (let other = one + 1; other < word.length; other += 1) {
      if (isLong) forms.push(numberOfRest(between, word, other + 1))
      between = withLetter(between, word, other)
    }
    forms.push(between >>> 0)
    before = withLetter(before, word, one)
  }
  return [...forms, before >>> 0]
}

const withLetter = (number: number, word: string, at: number) =>
  Math.imul(number ^ word.charCodeAt(at), 0x01000193)

function numberOfRest(number: number, word: string, from: number): number {
  let all = number
  for (let at = from; at < word.length; at += 1) all = withLetter(all, word, at)
  return all >>> 0
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
