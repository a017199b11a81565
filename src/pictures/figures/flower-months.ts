import { type Line, points } from './geometry.ts'
import type { Figure, FigureSet } from './pen.ts'

/** A year as three rows of four boxes, January at the top left; this month is filled. */
function yearWith(month: number): Figure {
  return (pen) =>
    Array.from({ length: 12 }, (_, n) => {
      const [x, y] = [8 + (n % 4) * 37, 26 + Math.floor(n / 4) * 37]
      const box: Line = points(x, y, x + 32, y, x + 32, y + 32, x, y + 32)
      return pen.shape(box, n + 1 === month ? 'ink' : 'paper', n + 1 === month ? 'bold' : 'thin')
    })
}

export const flowerMonths: FigureSet = Object.fromEntries(
  Array.from({ length: 12 }, (_, n) => [`${n + 1}`, yearWith(n + 1)]),
)
