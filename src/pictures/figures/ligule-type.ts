import { type Line, points, spline } from './geometry.ts'
import { sideJunction } from './junction.ts'
import type { FigureSet } from './pen.ts'

const base: Line = points(34, 88, 90, 88)
const tall: Line = [[34, 90], ...spline(points(34, 66, 44, 46, 62, 38, 80, 46, 90, 66)), [90, 90]]
const low: Line = points(34, 90, 34, 74, 90, 74, 90, 90)

/** What stands up where the blade leaves the sleeve. */
export const liguleType: FigureSet = {
  membrane: (pen) => [...sideJunction(pen), pen.shape(tall, 'paper', 'bold')],
  'membrane-fringed': (pen) => [
    ...sideJunction(pen),
    pen.hairs(points(36, 74, 88, 74), { count: 8, length: 28, side: -1, weight: 'thin' }),
    pen.shape(low, 'paper', 'bold'),
  ],
  hairs: (pen) => [...sideJunction(pen), pen.hairs(base, { count: 9, length: 38, side: -1, weight: 'thin' })],
  absent: (pen) => sideJunction(pen),
}
