/** Chances of one character: `chances[taxon * cells + cell]`. */
export type ChanceTable = { readonly cells: number; readonly chances: Float64Array }

/** How many neighbors in the data stand for "plants like this one". */
const NEAREST = 6

/** How much two plants differ in one character: 0 the same chances, 1 nothing in common. */
export function difference({ cells, chances }: ChanceTable, one: number, other: number): number {
  let common = 0
  for (let cell = 0; cell < cells; cell++) {
    common += Math.min(chances[one * cells + cell] ?? 0, chances[other * cells + cell] ?? 0)
  }
  return Math.max(0, 1 - common)
}

/** For each plant the plants most like it over all characters, the nearest first; `skip` says whom to pass over. */
export function relativesOf(
  tables: readonly ChanceTable[],
  count: number,
  skip: (one: number, other: number) => boolean,
): number[][] {
  return Array.from({ length: count }, (_, one) => {
    const distances = Array.from({ length: count }, (_unused, other) => ({
      other,
      distance: tables.reduce((sum, table) => sum + difference(table, one, other), 0),
    }))
    return distances
      .filter(({ other }) => other !== one && !skip(one, other))
      .sort((a, b) => a.distance - b.distance || a.other - b.other)
      .slice(0, NEAREST)
      .map(({ other }) => other)
  })
}

/**
 * How often a plant differs from its nearest relative in this character, measured on the plants of the data: each in
 * turn is taken as if it were not there.
 */
export function changeRate(table: ChanceTable, relatives: readonly (readonly number[])[]): number {
  let sum = 0
  relatives.forEach((list, one) => {
    const nearest = list[0]
    if (nearest !== undefined) sum += difference(table, one, nearest)
  })
  return sum / Math.max(relatives.length, 1)
}

/** The mean chances of a plant's relatives, cell by cell. */
export function relativeChances(table: ChanceTable, list: readonly number[]): Float64Array {
  const mean = new Float64Array(table.cells)
  for (const other of list) {
    for (let cell = 0; cell < table.cells; cell++) {
      mean[cell] = (mean[cell] ?? 0) + (table.chances[other * table.cells + cell] ?? 0) / list.length
    }
  }
  return mean
}
