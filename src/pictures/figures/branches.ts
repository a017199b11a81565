import type { SvgNode } from '../svg.ts'
import { type Point, points, spline, toward } from './geometry.ts'
import { stalk } from './head-parts.ts'
import type { Figure, FigureSet, Pen } from './pen.ts'

function arm(pen: Pen, from: Point, right: boolean, length: number, weight: 'mid' | 'bold'): SvgNode {
  return pen.stroke(
    spline([from, toward(from, right ? -30 : -150, length * 0.5), toward(from, right ? -22 : -158, length)]),
    weight,
  )
}

/** This many branches one above another on a stalk, taking turns left and right. */
function branched(count: number, weight: 'mid' | 'bold'): Figure {
  return (pen) => [
    stalk(pen, 30, 158, 'mid'),
    ...Array.from({ length: count }, (_, n) => {
      const y = count === 1 ? 86 : 132 - (n * 100) / Math.max(count - 1, 1)
      return arm(pen, [80, y], n % 2 === 0, 66 - n * (30 / count), weight)
    }),
  ]
}

/** How many branches to count: for the classes, a number inside each. */
export const branches: FigureSet = {
  '1': (pen) => [stalk(pen, 84, 158, 'mid'), pen.stroke(spline(points(80, 84, 82, 50, 92, 8)), 'bold')],
  '2': (pen) => [
    stalk(pen, 88, 158, 'mid'),
    pen.stroke(spline(points(80, 88, 58, 60, 40, 16)), 'bold'),
    pen.stroke(spline(points(80, 88, 102, 60, 120, 16)), 'bold'),
  ],
  '3': (pen) => [
    stalk(pen, 88, 158, 'mid'),
    pen.stroke(spline(points(80, 88, 54, 66, 26, 30)), 'bold'),
    pen.stroke(points(80, 88, 80, 10), 'bold'),
    pen.stroke(spline(points(80, 88, 106, 66, 134, 30)), 'bold'),
  ],
  '4-6': branched(5, 'bold'),
  '7-12': branched(9, 'bold'),
  'over-12': branched(20, 'mid'),
}
