/** Natural log of 1.25: the slack that printed ranges need at least (sources disagree by more than that). */
export const SLACK_LOG = Math.log(1.25)
const WIDE_LOG = 0.7
/** Keeps ratios of small lengths sane: 0.1 against 0.2 mm is not the doubling that 4 against 8 mm is. */
const OFFSET = 0.3

export type Span = { readonly from: number; readonly to: number }

/** How far a value lies outside a span, as a difference of logs; 0 inside it. */
export function distanceOutside(value: number, span: Span): number {
  if (value > span.to) return Math.log((value + OFFSET) / (span.to + OFFSET))
  if (value < span.from) return Math.log((span.from + OFFSET) / (value + OFFSET))
  return 0
}

/**
 * Chance of each cell of a grid for a plant with this printed span: even over the span (on a log scale where the
 * character is a length), falling off outside it, with a share of mistakes that reach further and anywhere.
 */
export function spanChances(span: Span, grid: readonly number[], mistakes: number): Float64Array {
  const discrete = isDiscrete(grid)
  const sizes = cellSizes(grid, discrete)
  const near = new Float64Array(sizes.length)
  const far = new Float64Array(sizes.length)
  for (let cell = 0; cell < sizes.length; cell++) {
    const points = cellPoints(grid, cell, discrete)
    for (const point of points) {
      const distance = discrete ? steps(point, span) * 0.3 : distanceOutside(point, span)
      near[cell] = (near[cell] ?? 0) + Math.exp((-2 * distance) / SLACK_LOG) / points.length
      far[cell] = (far[cell] ?? 0) + Math.exp(-distance / WIDE_LOG) / points.length
    }
    near[cell] = (near[cell] ?? 0) * (sizes[cell] ?? 0)
    far[cell] = (far[cell] ?? 0) * (sizes[cell] ?? 0)
  }
  const parts = [normalize(near), normalize(far), normalize(Float64Array.from(sizes))]
  return Float64Array.from(
    sizes,
    (_, cell) =>
      (1 - mistakes) * (parts[0]?.[cell] ?? 0) +
      mistakes * (0.75 * (parts[1]?.[cell] ?? 0) + 0.25 * (parts[2]?.[cell] ?? 0)),
  )
}

/** The share of an answered span that falls in each cell of the grid; a single number falls in one cell. */
export function spanCells(span: Span, grid: readonly number[]): { cell: number; part: number }[] {
  const last = grid.length - 2
  if (span.from === span.to) {
    const cell = grid.findLastIndex((edge) => edge <= span.from)
    return [{ cell: Math.min(Math.max(cell, 0), last), part: 1 }]
  }
  const found: { cell: number; part: number }[] = []
  for (let cell = 0; cell <= last; cell++) {
    const low = grid[cell] ?? 0
    const high = grid[cell + 1] ?? 0
    const overlap = Math.min(high, isDiscrete(grid) ? span.to + 1 : span.to) - Math.max(low, span.from)
    if (overlap > 0) found.push({ cell, part: overlap / (high - low) })
  }
  return found.length > 0 ? found : [{ cell: span.from > (grid.at(-1) ?? 0) ? last : 0, part: 1 }]
}

export function isDiscrete(grid: readonly number[]): boolean {
  return grid.every(Number.isInteger) && (grid[0] ?? 0) >= 0 && (grid[1] ?? 0) - (grid[0] ?? 0) === 1
}

function steps(value: number, span: Span): number {
  if (value > span.to) return value - span.to
  return value < span.from ? span.from - value : 0
}

function cellSizes(grid: readonly number[], discrete: boolean): number[] {
  return grid.slice(0, -1).map((low, cell) => {
    const high = grid[cell + 1] ?? low
    return discrete ? high - low : Math.log((high + OFFSET) / (low + OFFSET))
  })
}

function cellPoints(grid: readonly number[], cell: number, discrete: boolean): number[] {
  const low = grid[cell] ?? 0
  const high = grid[cell + 1] ?? low
  if (discrete) return Array.from({ length: high - low }, (_, step) => low + step)
  return [0.1, 0.3, 0.5, 0.7, 0.9].map((part) => low + part * (high - low))
}

function normalize(values: Float64Array): Float64Array {
  const sum = values.reduce((total, value) => total + value, 0)
  return values.map((value) => value / sum)
}
