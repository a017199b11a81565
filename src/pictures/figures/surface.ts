import type { SvgNode } from '../svg.ts'
import { type Line, type Point, placesOn, points, ribbon, spline, toward } from './geometry.ts'
import { bladeOutline } from './parts.ts'
import type { FigureSet, Pen } from './pen.ts'

/** A four-pointed glint. */
function glint(pen: Pen, at: Point, size: number): SvgNode {
  const corners = Array.from({ length: 8 }, (_, n) =>
    toward(at, n * 45 - 90, n % 2 === 0 ? size : size * 0.26),
  )
  return pen.shape(corners, 'white', 'thin')
}

const flat: Line = spline(points(26, 128, 60, 92, 104, 62, 150, 34))

function lyingBlade(pen: Pen): SvgNode[] {
  return [pen.shape(bladeOutline(flat, 52), 'shade', 'mid'), pen.stroke(flat, 'thin')]
}

/** A blade that curls over so that its underside shows at the end. */
function turnedBlade(pen: Pen): SvgNode[] {
  const top = spline(points(30, 144, 40, 96, 76, 50))
  const under = spline(points(72, 44, 116, 48, 146, 120))
  return [
    pen.shape(
      ribbon(top, () => 46),
      'shade',
      'mid',
    ),
    pen.stroke(top, 'thin'),
    pen.shape(
      ribbon(under, (share) => 50 * Math.sqrt(1 - share ** 3)),
      'paper',
      'bold',
    ),
  ]
}

/** How light falls on the blade. */
export const surface: FigureSet = {
  'shiny-back': (pen) => [...turnedBlade(pen), glint(pen, [98, 52], 19), glint(pen, [128, 82], 15)],
  shiny: (pen) => [
    ...lyingBlade(pen),
    glint(pen, [58, 84], 20),
    glint(pen, [104, 74], 15),
    glint(pen, [32, 128], 11),
  ],
  dull: (pen) => lyingBlade(pen),
  waxy: (pen) => [
    ...lyingBlade(pen),
    ...placesOn(flat, 4, 0.12, 0.82).flatMap(({ point }, n) => {
      const at: Point = [point[0] + (n % 2 ? 6 : -6), point[1] + (n % 2 ? 8 : -8)]
      return [
        pen.ring(at, 10, 'white', 'mid'),
        pen.over('white').stroke([toward(at, 200, 5), toward(at, 250, 5)], 'thin'),
      ]
    }),
  ],
}
