import type { SvgNode } from '../svg.ts'
import { type Line, placesOn, points, spline } from './geometry.ts'
import type { Hue } from './hues.ts'
import { bladeOutline } from './parts.ts'
import type { Figure, FigureSet, Pen } from './pen.ts'

const turf: Line = spline(points(46, 156, 44, 90, 34, 16))
const plant: Line = spline(points(110, 156, 112, 90, 126, 10))
const leaf = bladeOutline(plant, 46)

/** Left the good turf, right the plant asked about, in its true color and with a pattern of its own. */
function besideTurf(hue: Hue, pattern: (pen: Pen) => readonly SvgNode[]): Figure {
  return (pen) => [
    pen.shape(bladeOutline(turf, 36), 'turf-green', 'thin'),
    pen.stroke(points(78, 8, 78, 152), 'hair', '3 7'),
    pen.shape(leaf, hue, 'bold'),
    ...pattern(pen.over(hue)),
  ]
}

const dotted = (pen: Pen) => [
  pen.dots(
    placesOn(plant, 6, 0.1, 0.85).map((place) => place.point),
    4.8,
  ),
]
const waves = (pen: Pen) =>
  [60, 86, 112, 138].map((y) =>
    pen.stroke(spline(points(96, y, 104, y - 6, 112, y, 120, y + 6, 126, y)), 'thin'),
  )

export const color: FigureSet = {
  'light-green': besideTurf('light-green', () => []),
  'yellow-green': besideTurf('yellow-green', (pen) => [pen.hatch(leaf, 90, 13)]),
  'apple-green': besideTurf('apple-green', dotted),
  'dark-green': besideTurf('dark-green', (pen) => [pen.hatch(leaf, 45, 6)]),
  'blue-green': besideTurf('blue-green', waves),
  'gray-green': besideTurf('gray-green', (pen) => [pen.hatch(leaf, 0, 11)]),
}
