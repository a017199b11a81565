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
