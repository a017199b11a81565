/** Lower case, no accents, marks and quotes as spaces: how names and words are compared. */
export function plain(text: string): string {
  return text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/['’`.]/g, '')
    .replace(/[^a-z0-9]+/g, ' ')
    .trim()
}

/** Words that join others and say nothing of the plant. */
const LINKING = new Set(
  (
    'is are the a an has have with at in of on to and from its it i see looks look like shape shaped form there yet still ' +
    'es son esta estan el la los las un una unos unas de del en con al tiene tienen como forma se ve muy todavia aun'
  ).split(' '),
)

const IRREGULAR: Readonly<Record<string, string>> = { leaves: 'leaf', raices: 'raiz' }

/** A word without plural and gender: `hojas` and `hoja`, `peludo` and `peluda`, `edges` and `edge` are one. */
export function stemOf(word: string): string {
  const known = IRREGULAR[word] ?? word
  const single = known.length > 3 && /[^s]s$/.test(known) ? known.slice(0, -1) : known
  return single.length > 3 ? single.replace(/[aeo]$/, '') : single
}

/** The words of a phrase that say something, in the order in which they stand. */
export function tellingWords(text: string): string[] {
  return plain(text)
    .split(' ')
    .filter((word) => word !== '' && !LINKING.has(word))
}

/** The same for phrases of the same words, whatever their order, number and gender: `hairs on the sheath`, `sheath hairs`. */
export function bagOf(text: string): string {
  return [...new Set(tellingWords(text).map(stemOf))].sort().join(' ')
}

/** Edits (insert, delete, replace, swap of neighbors) between two texts, or `most + 1` when there are more. */
export function editDistance(one: string, other: string, most: number): number {
  if (Math.abs(one.length - other.length) > most) return most + 1
  let before: number[] = []
  let last = Array.from({ length: other.length + 1 }, (_, at) => at)
  for (let row = 1; row <= one.length; row++) {
    const current = [row]
    for (let column = 1; column <= other.length; column++) {
      const same = one[row - 1] === other[column - 1]
      let cost = Math.min(
        (last[column] ?? 0) + 1,
        (current[column - 1] ?? 0) + 1,
        (last[column - 1] ?? 0) + (same ? 0 : 1),
      )
      const swapped = one[row - 1] === other[column - 2] && one[row - 2] === other[column - 1]
      if (row > 1 && column > 1 && swapped) cost = Math.min(cost, (before[column - 2] ?? 0) + 1)
      current.push(cost)
    }
    before = last
    last = current
  }
  return Math.min(last[other.length] ?? 0, most + 1)
}

/** How many typos a word of this length may have and still be meant. */
export function allowedTypos(word: string): number {
  if (word.length < 4) return 0
  return word.length < 8 ? 1 : 2
}

/**
 * How many typos make one phrase of the other, word by word, or undefined: `verntion` is a typo, but no word stands for
 * another one, however alike ("wide" and "fine", "delgada" and "dentada").
 */
export function typosBetween(typed: string, known: string): number | undefined {
  const [words, others] = [typed.split(' '), known.split(' ')]
  if (words.length !== others.length) return undefined
  let sum = 0
  for (const [at, word] of words.entries()) {
    const other = others[at] ?? ''
    const most = Math.min(allowedTypos(word), allowedTypos(other))
    const edits = word === other ? 0 : editDistance(word, other, most)
    if (edits > most) return undefined
    sum += edits
  }
  return sum
}
