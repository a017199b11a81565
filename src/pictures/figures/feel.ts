import type { SvgNode } from '../svg.ts'
import { moved, points, spline, toward } from './geometry.ts'
import { arrow, bladeOutline } from './parts.ts'
import type { FigureSet, Pen } from './pen.ts'

/** A fingertip that comes in from the left. */
function finger(pen: Pen, x: number, y: number): SvgNode[] {
  const outline = spline(
    points(x - 50, y - 15, x - 18, y - 16, x, y - 6, x, y + 8, x - 18, y + 15, x - 50, y + 15),
  )
  return [pen.shape(outline, 'paper', 'thin'), pen.stroke(points(x - 14, y - 9, x - 5, y - 5), 'hair')]
}

/** A finger pushes: the blade stays, or gives, or is thick and full of water. */
export const feel: FigureSet = {
  stiff: (pen) => [
    ...[66, 96, 126].map((x) => pen.shape(bladeOutline(points(x, 152, x, 14), 13), 'shade', 'mid')),
    ...finger(pen, 56, 62),
    ...[-30, 0, 30].map((degrees) =>
      pen.stroke([toward([40, 34], degrees - 90, 8), toward([40, 34], degrees - 90, 22)], 'mid'),
    ),
  ],
  soft: (pen) => [
    ...[70, 90, 110].map((x) =>
      pen.shape(
        bladeOutline(spline(points(x, 152, x, 104, x + 8, 66, x + 34, 52, x + 40, 84)), 12),
        'shade',
        'mid',
      ),
    ),
    ...finger(pen, 72, 66),
    ...arrow(pen, spline(points(40, 28, 80, 12, 122, 26)), 'mid'),
  ],
  fleshy: (pen) => {
    const leaf = spline(points(40, 92, 56, 64, 96, 54, 136, 66, 148, 92, 136, 112, 96, 122, 56, 116), true)
    const drop = spline(points(20, 104, 28, 120, 20, 130, 12, 120), true)
    return [
      pen.shape(leaf, 'shade', 'bold'),
      pen.shape(spline(points(40, 92, 48, 74, 58, 92, 48, 112), true), 'paper', 'mid'),
      pen.dots(points(47, 86, 51, 95, 46, 101), 2.4),
      pen.stroke(spline(points(84, 72, 104, 68, 124, 76)), 'thin'),
      pen.shape(moved(drop, 10, 10), 'paper', 'mid'),
    ]
  },
}
