import type { SvgNode } from '../svg.ts'
import { type Line, points, spline } from './geometry.ts'
import type { Hue } from './hues.ts'
import { bent, blade, fineRoots, ground } from './parts.ts'
import type { Figure, FigureSet, Pen } from './pen.ts'

const base: Line = [[62, 66], [98, 66], ...spline(points(102, 100, 98, 122, 80, 126, 62, 122, 58, 100))]

/** A shoot whose outer leaves are peeled off; only its base is colored. */
function shoot(hue: Hue, pattern: (pen: Pen) => readonly SvgNode[]): Figure {
  return (pen) => [
    blade(pen, bent([72, 68], -108, 62, -20), 16, 'paper', 'thin'),
    blade(pen, bent([88, 68], -72, 62, 20), 16, 'paper', 'thin'),
    blade(pen, bent([80, 68], -90, 62, 0), 14, 'paper', 'thin'),
    ...ground(pen, 126),
    ...fineRoots(pen, [80, 126], 28, 5),
    pen.shape(base, hue, 'bold'),
    ...pattern(pen.over(hue)),
  ]
}

/** The color asked about is the true one, with a pattern for those who cannot tell colors apart. */
export const baseColor: FigureSet = {
  silvery: shoot('white', (pen) => [
    pen.stroke(points(72, 76, 72, 112), 'hair'),
    pen.stroke(points(82, 84, 82, 116), 'hair'),
  ]),
  red: shoot('red', (pen) => [pen.hatch(base, 45, 14, 'mid')]),
  purple: shoot('purple', (pen) => [pen.hatch(base, 45, 9, 'thin'), pen.hatch(base, -45, 9, 'thin')]),
}
