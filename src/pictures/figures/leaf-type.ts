import { type Line, oval, points, ribbon, spline, toward } from './geometry.ts'
import { leafOutlines } from './leaf-outlines.ts'
import { cutLeaf } from './lobes.ts'
import { bladeOutline, leafOutline } from './parts.ts'
import type { FigureSet } from './pen.ts'

const leaflet = (degrees: number): Line => leafOutline([[80, 92], toward([80, 92], degrees, 70)], 52)

/** One piece, several, a strap or a tube. */
export const leafType: FigureSet = {
  simple: (pen) => [
    pen.stroke(points(80, 126, 80, 156), 'bold'),
    pen.shape(leafOutlines.egg, 'shade', 'bold'),
    pen.stroke(points(80, 28, 80, 126), 'thin'),
  ],
  'three-leaflets': (pen) => [
    pen.stroke(points(80, 92, 80, 156), 'bold'),
    ...[-205, 25, -90].map((degrees) => pen.shape(leaflet(degrees), 'shade', 'mid')),
  ],
  feather: (pen) => [
    ...[118, 92, 66, 40].flatMap((y) =>
      [-160, -20].map((degrees) =>
        pen.shape(leafOutline([[80, y], toward([80, y], degrees, 58)], 23), 'shade', 'mid'),
      ),
    ),
    pen.shape(leafOutline(points(80, 34, 80, 2), 20), 'shade', 'mid'),
    pen.stroke(points(80, 156, 80, 30), 'mid'),
  ],
  'deeply-cut': (pen) => [
    pen.shape(cutLeaf(5, 44, 10), 'shade', 'mid'),
    pen.stroke(points(80, 156, 80, 18), 'thin'),
  ],
  peltate: (pen) => [
    pen.shape(oval([80, 58], 66, 46), 'shade', 'bold'),
    ...[15, 60, 120, 165, 210, 255, 300, 345].map((degrees) => {
      const [x, y] = toward([0, 0], degrees, 1)
      return pen.stroke(points(80, 58, 80 + 52 * x, 58 + 34 * y), 'thin')
    }),
    pen.stroke(spline(points(80, 58, 82, 110, 88, 156)), 'bold'),
    pen.dot([80, 58], 7),
  ],
  strap: (pen) => {
    const middle = spline(points(56, 156, 60, 90, 78, 40, 118, 8))
    return [
      pen.shape(bladeOutline(middle, 24), 'shade', 'mid'),
      ...[-5, 5].map((shift) =>
        pen.stroke(
          middle.slice(0, 22).map(([x, y]) => [x + shift, y] as const),
          'hair',
        ),
      ),
    ]
  },
  'hollow-tube': (pen) => [
    pen.shape(
      ribbon(points(80, 156, 80, 60), () => 54),
      'shade',
      'no-line',
    ),
    pen.stroke(points(53, 60, 53, 156), 'mid'),
    pen.stroke(points(107, 60, 107, 156), 'mid'),
    pen.shape(oval([80, 58], 27, 14), 'paper', 'bold'),
    pen.shape(oval([80, 58], 17, 8), 'black', 'thin'),
    pen.shape(
      [
        [53, 34],
        ...spline(points(53, 34, 66, 14, 84, 4, 92, 8, 106, 34)),
        ...spline(points(107, 34, 80, 46, 53, 34)),
      ],
      'shade',
      'mid',
    ),
  ],
}
