import type { SvgNode } from '../svg.ts'
import { moved, points, spline } from './geometry.ts'
import { crossOut } from './parts.ts'
import type { FigureSet, Pen } from './pen.ts'

const drop = spline(points(0, -20, 10, 0, 9, 12, 0, 17, -9, 12, -10, 0), true)

/** A stem snapped in two, the break in the middle. */
function snapped(pen: Pen): SvgNode[] {
  return [
    pen.shape(points(6, 44, 62, 62, 70, 72, 60, 78, 66, 88, 2, 70), 'shade', 'mid'),
    pen.shape(points(154, 44, 96, 60, 90, 68, 100, 76, 92, 86, 158, 70), 'shade', 'mid'),
  ]
}

export const milkySap: FigureSet = {
  yes: (pen) => [
    ...snapped(pen),
    pen.shape(spline(points(58, 66, 72, 66, 74, 84, 66, 96, 58, 86), true), 'white', 'mid'),
    pen.shape(spline(points(92, 64, 104, 68, 102, 84, 94, 92, 88, 80), true), 'white', 'mid'),
    pen.shape(moved(drop, 66, 124), 'white', 'mid'),
    pen.shape(moved(drop, 98, 120), 'white', 'mid'),
  ],
  no: (pen) => [
    ...snapped(pen),
    pen.stroke([...moved(drop, 80, 122), [80, 102]], 'thin', '4 4'),
    ...crossOut(pen, [80, 122], 24, 'mid'),
  ],
}
