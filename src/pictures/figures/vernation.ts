import { type Line, oval, points, ribbon, spline } from './geometry.ts'
import type { FigureSet } from './pen.ts'

const fold: Line = spline(points(138, 70, 96, 66, 44, 72, 30, 80, 44, 88, 96, 94, 138, 90))
const innerFold: Line = spline(points(128, 78, 96, 77, 64, 79, 56, 80, 64, 82, 96, 84, 128, 83))

function scroll(turns: number): Line {
  return Array.from({ length: 90 }, (_, n) => {
    const angle = (n / 89) * turns * 2 * Math.PI
    const radius = 8 + (n / 89) * 44
    return [80 + radius * Math.cos(angle), 80 + radius * Math.sin(angle)] as const
  })
}

/** A cut across the shoot: the sleeve outside, the youngest leaf inside. */
export const vernation: FigureSet = {
  folded: (pen) => [
    pen.shape(oval([80, 80], 72, 30), 'paper', 'thin'),
    pen.shape(
      ribbon(fold, () => 7, 40),
      'shade',
      'mid',
    ),
    pen.shape(
      ribbon(innerFold, () => 3, 40),
      'ink',
      'no-line',
    ),
  ],
  rolled: (pen) => [
    pen.ring([80, 80], 68, 'paper', 'thin'),
    pen.shape(
      ribbon(scroll(1.9), () => 9, 80),
      'shade',
      'mid',
    ),
  ],
}
