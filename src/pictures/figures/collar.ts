import type { SvgNode } from '../svg.ts'
import { type Line, mirrored, points } from './geometry.ts'
import { crossOut } from './parts.ts'
import type { FigureSet, Fill, Pen } from './pen.ts'

/** The back of the bend: blade above, sleeve below, the band between `top` and `bottom`; `waist` is its half width. */
function back(pen: Pen, top: number, bottom: number, waist = 32): SvgNode[] {
  const right: Line = points(
    80 + 34,
    4,
    80 + 33,
    top,
    80 + waist,
    (top + bottom) / 2,
    80 + 26,
    bottom,
    80 + 24,
    156,
  )
  const outline: Line = [...mirrored(right), ...[...right].reverse()]
  return [
    pen.shape(outline, 'shade', 'no-line'),
    pen.stroke(right, 'mid'),
    pen.stroke(mirrored(right), 'mid'),
    pen.stroke(points(80, 4, 80, top), 'thin'),
  ]
}

function band(pen: Pen, top: number, bottom: number, left = 47, right = 113, fill: Fill = 'paper'): SvgNode {
  return pen.shape(
    points(
      left,
      top,
      right,
      top,
      right - (bottom - top) * 0.12,
      bottom,
      left + (bottom - top) * 0.12,
      bottom,
    ),
    fill,
    'mid',
  )
}

export const collar: FigureSet = {
  narrow: (pen) => [...back(pen, 74, 84), band(pen, 76, 84)],
  broad: (pen) => [...back(pen, 52, 108), band(pen, 54, 106)],
  pinched: (pen) => {
    const waist: Line = points(46, 60, 114, 60, 91, 82, 106, 104, 54, 104, 69, 82)
    return [...back(pen, 60, 104, 11), pen.shape(waist, 'paper', 'bold')]
  },
  divided: (pen) => [
    ...back(pen, 66, 98),
    band(pen, 66, 98, 47, 70),
    band(pen, 66, 98, 90, 113),
    pen.stroke(points(80, 4, 80, 156), 'bold'),
  ],
  hairy: (pen) => [
    ...back(pen, 70, 94),
    band(pen, 70, 94),
    pen.hairs(points(112, 92, 114, 70), { count: 4, length: 36, side: 1, lean: 25, weight: 'thin' }),
    pen.hairs(points(48, 92, 46, 70), { count: 4, length: 36, side: -1, lean: 25, weight: 'thin' }),
  ],
  smooth: (pen) => [
    ...back(pen, 70, 94),
    band(pen, 70, 94),
    ...[22, 138].flatMap((x) => [
      pen.hairs(points(x - 9, 90, x + 9, 90), { count: 4, length: 20, side: -1, weight: 'thin' }),
      ...crossOut(pen, [x, 81], 16, 'mid'),
    ]),
  ],
}
