import { bent, blade, ground } from './parts.ts'
import type { Figure, FigureSet } from './pen.ts'

/** Seven leaves of one width. */
function leaves(width: number, count: number): Figure {
  return (pen) => [
    ...ground(pen, 142),
    ...Array.from({ length: count }, (_, n) => {
      const lean = (n / (count - 1)) * 2 - 1
      return blade(
        pen,
        bent([80 + lean * 40, 142], -90 + lean * 12, 124 - Math.abs(lean) * 20, lean * 14),
        width,
        'shade',
        width < 6 ? 'hair' : 'mid',
      )
    }),
  ]
}

export const texture: FigureSet = { fine: leaves(3.5, 13), medium: leaves(13, 7), coarse: leaves(30, 4) }
