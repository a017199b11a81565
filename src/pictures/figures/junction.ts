import type { SvgNode } from '../svg.ts'
import { type Line, points, spline } from './geometry.ts'
import { bladeOutline } from './parts.ts'
import type { Pen } from './pen.ts'

/** Side view: sleeve below, stem going on upward, one blade bent away to the right. */
export function sideJunction(pen: Pen): SvgNode[] {
  const bladeLine = spline(points(58, 104, 76, 92, 104, 86, 130, 94, 154, 118))
  return [
    pen.stroke(points(44, 4, 44, 92), 'thin'),
    pen.stroke(points(74, 4, 74, 88), 'thin'),
    pen.shape(bladeOutline(bladeLine, 26), 'shade', 'mid'),
    pen.shape(points(34, 90, 88, 90, 82, 158, 40, 158), 'shade', 'no-line'),
    pen.stroke(points(34, 90, 40, 158), 'mid'),
    pen.stroke(points(90, 102, 83, 158), 'mid'),
    pen.stroke(points(34, 90, 80, 90), 'mid'),
  ]
}

/** Front view: sleeve below, the stem or the next leaf rising out of it. */
export function frontJunction(pen: Pen): SvgNode[] {
  const sleeve: Line = points(52, 84, 108, 84, 104, 156, 56, 156)
  return [
    pen.stroke(points(66, 4, 66, 84), 'thin'),
    pen.stroke(points(94, 4, 94, 84), 'thin'),
    pen.shape(sleeve, 'shade', 'no-line'),
    pen.stroke(points(52, 84, 56, 156), 'mid'),
    pen.stroke(points(108, 84, 104, 156), 'mid'),
    pen.stroke(points(52, 84, 108, 84), 'mid'),
  ]
}
