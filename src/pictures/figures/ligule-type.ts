import { type Line, spline } from './geometry.ts'
import { sideJunction } from './junction.ts'
import type { FigureSet } from './pen.ts'

const base: Line = [
  [34, 88],
  [90, 88],
]
const tall: Line = [
  [34, 90],
  ...spline([
    [34, 66],
    [44, 46],
    [62, 38],
    [80, 46],
    [90, 66],
  ]),
  [90, 90],
]
const low: Line = [
  [34, 90],
  [34, 74],
  [90, 74],
  [90, 90],
]

/** What stands up where the blade leaves the sleeve. */
export const liguleType: FigureSet = {
  membrane: (pen) => [...sideJunction(pen), pen.shape(tall, 'paper', 'bold')],
  'membrane-fringed': (pen) => [
    ...sideJunction(pen),
    pen.hairs(
      [
        [36, 74],
        [88, 74],
      ],
      { count: 12, length: 26, side: -1, weight: 'thin' },
    ),
    pen.shape(low, 'paper', 'bold'),
  ],
  hairs: (pen) => [
    ...sideJunction(pen),
    pen.hairs(base, { count: 14, length: 38, side: -1, weight: 'thin' }),
  ],
  absent: (pen) => sideJunction(pen),
}
