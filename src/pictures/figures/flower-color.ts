import type { SvgNode } from '../svg.ts'
import { type Line, oval, placesOn, points, spline } from './geometry.ts'
import type { Hue } from './hues.ts'
import { crossOut, flower } from './parts.ts'
import type { Figure, FigureSet, Pen } from './pen.ts'

type Mark = (pen: Pen, petal: Line) => readonly SvgNode[]

/** A five-petal flower in its true color, with a pattern on its petals. */
function colored(hue: Hue, mark: Mark, radius = 66): Figure {
  return (pen) => flower(pen, [80, 84], radius, 5, hue, (petal) => mark(pen.over(hue), petal))
}

/** The line from the heart of the flower to the end of a petal. */
function middleOf(petal: Line): Line {
  const end = petal[petal.length / 2 - 1] ?? [80, 84]
  return [[80, 84], end]
}

const plain: Mark = () => []
const spots: Mark = (pen, petal) => [
  pen.dots(
    placesOn(middleOf(petal), 3, 0.4, 0.85).map((place) => place.point),
    3.4,
  ),
]
const waves: Mark = (pen, petal) =>
  placesOn(middleOf(petal), 2, 0.45, 0.75).map(({ point: [x, y] }) =>
    pen.stroke(spline(points(x - 12, y, x - 6, y - 5, x, y, x + 6, y + 5, x + 12, y)), 'thin'),
  )
const hatched =
  (degrees: readonly number[], gap: number): Mark =>
  (pen, petal) =>
    degrees.map((angle) => pen.hatch(petal, angle, gap))

export const flowerColor: FigureSet = {
  white: colored('white', plain),
  yellow: colored('yellow', hatched([90], 12)),
  pink: colored('pink', spots),
  purple: colored('purple', hatched([45], 9)),
  blue: colored('blue', waves),
  green: colored('green', plain, 30),
  brown: colored('brown', hatched([0], 6), 36),
  red: colored('red', hatched([45, -45], 12)),
  'none-seen': (pen) => [
    pen.stroke([...oval([80, 80], 56), [136, 80]], 'thin', '6 8'),
    pen.stroke([...oval([80, 80], 14), [94, 80]], 'thin', '5 6'),
    ...crossOut(pen, [80, 80], 66),
  ],
}
