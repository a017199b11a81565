import type { SvgNode } from '../svg.ts'
import { type Line, type Point, placesOn, points, spline, toward } from './geometry.ts'
import { crossOut, leafOutline } from './parts.ts'
import type { FigureSet, Pen } from './pen.ts'

function scent(pen: Pen, dashes?: string): SvgNode[] {
  return [56, 80, 104].map((x) =>
    pen.stroke(spline(points(x, 62, x - 8, 50, x + 8, 36, x - 8, 22, x, 8)), 'mid', dashes),
  )
}

function bulb(pen: Pen): SvgNode[] {
  return [
    pen.shape(
      spline(points(80, 70, 90, 88, 116, 106, 112, 134, 80, 146, 48, 134, 44, 106, 70, 88), true),
      'shade',
      'bold',
    ),
    pen.stroke(spline(points(80, 74, 62, 108, 80, 144)), 'thin'),
    pen.stroke(spline(points(80, 74, 98, 108, 80, 144)), 'thin'),
    pen.hairs(points(68, 146, 92, 146), { count: 5, length: 10, side: 1, weight: 'thin' }),
  ]
}

const JOINT: Point = [80, 122]

/** A pair of leaves on a stem; `teeth` gives them a saw edge. */
function leafPair(pen: Pen, teeth: boolean): SvgNode[] {
  return [
    ...[-150, -30].flatMap((degrees) => {
      const middle: Line = [JOINT, toward(JOINT, degrees, 66)]
      const smooth = leafOutline(middle, 44)
      const saw = placesOn([...smooth, smooth[0] ?? JOINT], 31).map((place, n) =>
        n % 2 === 1 ? toward(place.point, place.degrees - 90, 6) : place.point,
      )
      return [pen.shape(teeth ? saw : smooth, 'shade', 'mid'), pen.stroke(middle, 'thin')]
    }),
    pen.stroke([[80, 156], JOINT], 'bold'),
  ]
}

/** What rises from a crushed plant. */
export const smell: FigureSet = {
  onion: (pen) => [...scent(pen), ...bulb(pen)],
  mint: (pen) => [...scent(pen), ...leafPair(pen, true)],
  none: (pen) => [...scent(pen, '4 6'), ...leafPair(pen, false), ...crossOut(pen, [80, 36], 44)],
}
