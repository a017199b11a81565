import type { SvgNode } from '../svg.ts'
import { oval, type Point, points, spline, toward } from './geometry.ts'
import { leafOutline } from './parts.ts'
import type { Figure, FigureSet, Pen } from './pen.ts'

function leafOnStalk(pen: Pen, from: Point, degrees: number, stalk: number, size = 60): SvgNode[] {
  const start = toward(from, degrees, stalk)
  return [
    ...(stalk > 0 ? [pen.stroke([from, start], 'mid')] : []),
    pen.shape(leafOutline(spline([start, toward(start, degrees, size)]), size * 0.62), 'shade', 'mid'),
  ]
}

/** One leaf on an upright stem at the left, on a stalk of this length. */
function stalkOf(length: number): Figure {
  return (pen) => [
    pen.stroke(points(30, 156, 30, 6), 'heavy'),
    ...leafOnStalk(pen, [34, 92], -22, length, 62),
    ...(length > 0 ? [pen.stroke([[34, 92], toward([34, 92], -22, length)], 'bold')] : []),
  ]
}

export const leafStalk: FigureSet = {
  none: stalkOf(0),
  short: stalkOf(16),
  long: stalkOf(60),
  'upper-none': (pen) => [
    pen.stroke(points(80, 156, 80, 8), 'bold'),
    ...[130, 102].flatMap((y) => [
      ...leafOnStalk(pen, [80, y], -168, 26, 36),
      ...leafOnStalk(pen, [80, y], -12, 26, 36),
    ]),
    ...[62, 32].flatMap((y) => [
      pen.shape(oval([80, y], 48, 15), 'shade', 'bold'),
      pen.stroke(points(80, y + 6, 80, y - 24), 'bold'),
    ]),
  ],
}
