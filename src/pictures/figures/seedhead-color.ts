import type { SvgNode } from '../svg.ts'
import { type Line, placesOn, points, spline } from './geometry.ts'
import type { Hue } from './hues.ts'
import { bothSides } from './leaf-outlines.ts'
import type { Figure, FigureSet, Pen } from './pen.ts'

const head: Line = bothSides(spline(points(80, 6, 98, 28, 108, 66, 100, 104, 80, 122)))

/** One plain head in its true color, with a pattern of its own. */
function colored(hue: Hue, pattern: (pen: Pen) => readonly SvgNode[]): Figure {
  return (pen) => [
    pen.stroke(points(80, 120, 80, 158), 'bold'),
    pen.shape(head, hue, 'bold'),
    ...pattern(pen.over(hue)),
  ]
}

const rows = (pen: Pen) =>
  [36, 60, 84].flatMap((y) => [
    pen.dots(
      placesOn(points(64, y, 96, y), 3).map((place) => place.point),
      4.8,
    ),
  ])

export const seedheadColor: FigureSet = {
  'yellow-brown': colored('tan', (pen) => [pen.hatch(head, 45, 14, 'mid')]),
  'purple-brown': colored('purple-brown', (pen) => [pen.hatch(head, 45, 7), pen.hatch(head, -45, 7)]),
  green: colored('green', () => []),
  whitish: colored('whitish', () => []),
  black: colored('black', () => []),
  purple: colored('purple', (pen) => [pen.hatch(head, -45, 9, 'thin')]),
  straw: colored('straw', (pen) => [pen.hatch(head, 90, 11)]),
  gray: colored('gray', rows),
}
