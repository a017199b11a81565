import { type Line, points, spline } from './geometry.ts'
import type { Figure, FigureSet } from './pen.ts'

/** Units of the figure for a millimeter. */
const MM = 21
/** Thickness of the coin that people are asked to compare with. Source: US Mint, dime, 1.35 mm. */
const DIME_MM = 1.35
const BASE = 132

/** A skin of this height in front, and a stack of two coins on edge beside it. */
function skinBesideCoins(heightMm: number): Figure {
  return (pen) => {
    const top = BASE - heightMm * MM
    const skin: Line = [
      [92, BASE],
      ...spline(points(92, top + heightMm * 4, 104, top, 124, top, 136, top + heightMm * 4)),
      [136, BASE],
    ]
    const coin = (n: number) => {
      const y = BASE - n * DIME_MM * MM
      const edge: Line = points(12, y - DIME_MM * MM + 2, 72, y - DIME_MM * MM + 2, 72, y, 12, y)
      return [pen.shape(edge, 'shade', 'thin'), pen.hatch(edge, 90, 5)]
    }
    return [
      pen.stroke(points(4, BASE, 156, BASE), 'mid'),
      pen.stroke(points(86, BASE, 90, 156), 'thin'),
      pen.stroke(points(142, BASE, 138, 156), 'thin'),
      ...coin(0),
      ...coin(1),
      pen.stroke(points(76, BASE - DIME_MM * MM, 156, BASE - DIME_MM * MM), 'hair', '3 6'),
      pen.stroke(points(76, BASE - 2 * DIME_MM * MM, 156, BASE - 2 * DIME_MM * MM), 'hair', '3 6'),
      pen.shape(skin, 'paper', 'bold'),
    ]
  }
}

/** Heights are the middles of the classes, the last one well above its lower end. */
export const liguleMm: FigureSet = {
  'under-0.5': skinBesideCoins(0.25),
  '0.5-1': skinBesideCoins(0.8),
  '1-3': skinBesideCoins(2.1),
  'over-3': skinBesideCoins(4.6),
}
