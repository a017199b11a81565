import type { SvgNode } from '../svg.ts'
import { type Line, spline } from './geometry.ts'
import { bladeOutline } from './parts.ts'
import type { Pen } from './pen.ts'

/** Where the blade leaves the sleeve in the side view. */
export const BEND = { x: 84, y: 86 } as const

/** Side view: sleeve below, stem going on upward, one blade bent away to the right. */
export function sideJunction(pen: Pen): SvgNode[] {
  const bladeLine = spline([
    [70, 92],
    [100, 82],
    [128, 88],
    [156, 110],
  ])
  return [
    pen.stroke(
      [
        [44, 4],
        [44, 92],
      ],
      'thin',
    ),
    pen.stroke(
      [
        [74, 4],
        [74, 70],
      ],
      'thin',
    ),
    pen.shape(
      [
        [36, 90],
        [86, 90],
        [82, 156],
        [40, 156],
      ],
      'shade',
      'no-line',
    ),
    pen.shape(bladeOutline(bladeLine, 22), 'shade', 'mid'),
    pen.stroke(
      [
        [36, 90],
        [40, 156],
      ],
      'mid',
    ),
    pen.stroke(
      [
        [86, 98],
        [82, 156],
      ],
      'mid',
    ),
  ]
}

/** Front view: sleeve below, the stem or the next leaf rising out of it. */
export function frontJunction(pen: Pen): SvgNode[] {
  const sleeve: Line = [
    [52, 84],
    [108, 84],
    [104, 156],
    [56, 156],
  ]
  return [
    pen.stroke(
      [
        [66, 4],
        [66, 84],
      ],
      'thin',
    ),
    pen.stroke(
      [
        [94, 4],
        [94, 84],
      ],
      'thin',
    ),
    pen.shape(sleeve, 'shade', 'no-line'),
    pen.stroke(
      [
        [52, 84],
        [56, 156],
      ],
      'mid',
    ),
    pen.stroke(
      [
        [108, 84],
        [104, 156],
      ],
      'mid',
    ),
    pen.stroke(
      [
        [52, 84],
        [108, 84],
      ],
      'mid',
    ),
  ]
}
