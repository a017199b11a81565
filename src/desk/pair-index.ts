/**
 * Finds texts that look alike by the pairs of letters that they share: one slip changes two or three pairs and leaves
 * the others. Quick, and only good enough to choose what is worth a closer look.
 */
export function pairIndex(texts: readonly string[]): (text: string, limit: number) => readonly number[] {
  const places = new Map<string, number[]>()
  const pairsIn = texts.map((text, at) => {
    const pairs = pairsOf(text)
    for (const pair of pairs) {
      const known = places.get(pair)
      if (known === undefined) places.set(pair, [at])
      else known.push(at)
    }
    return pairs.size
  })

  return (text, limit) => {
    const shared = new Map<number, number>()
    for (const pair of pairsOf(text))
      for (const at of places.get(pair) ?? []) shared.set(at, (shared.get(at) ?? 0) + 1)
    // Of two that share as much, the one with less beside it is the better guess.
    return [...shared]
      .sort(([one, pairs], [other, more]) => more - pairs || (pairsIn[one] ?? 0) - (pairsIn[other] ?? 0))
      .slice(0, limit)
      .map(([at]) => at)
  }
}

/** Pairs of neighboring letters, without accents or capitals; a word's beginning counts as a letter. */
function pairsOf(text: string): ReadonlySet<string> {
  const plain = text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase()
  const letters = [...` ${plain}`]
  return new Set(letters.slice(1).map((letter, at) => `${letters[at]}${letter}`))
}
