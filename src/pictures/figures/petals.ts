import { points, spline, toward } from './geometry.ts'
import { flower } from './parts.ts'
import type { FigureSet } from './pen.ts'

/** Side view: a tube, a hood over its mouth, a lip below. */
const tube = spline(points(8, 126, 30, 104, 60, 86, 84, 80, 88, 100, 62, 112, 36, 130, 18, 142), true)
const hood = spline(points(78, 84, 82, 50, 104, 24, 136, 22, 150, 44, 130, 54, 112, 72, 94, 90), true)
const lip = spline(points(82, 98, 104, 98, 134, 96, 152, 112, 146, 136, 122, 144, 104, 128, 84, 112), true)

/** How many petals, or the flower's shape. */
export const petals: FigureSet = {
  '3': (pen) => flower(pen, [80, 88], 70, 3),
  '4': (pen) => flower(pen, [80, 80], 68, 4),
  '5': (pen) => flower(pen, [80, 84], 70, 5),
  '6': (pen) => flower(pen, [80, 80], 70, 6),
  many: (pen) => [...flower(pen, [80, 80], 72, 18), pen.ring([80, 80], 18, 'shade', 'mid')],
  'two-lipped': (pen) => [
    pen.shape(tube, 'shade', 'mid'),
    pen.shape(hood, 'paper', 'bold'),
    pen.shape(lip, 'paper', 'bold'),
    pen.dots(points(112, 110, 126, 114, 122, 126), 3),
  ],
  pea: (pen) => [
    pen.shape(
      spline(points(80, 92, 40, 84, 14, 50, 34, 18, 80, 26, 126, 18, 146, 50, 120, 84), true),
      'paper',
      'bold',
    ),
    pen.stroke(points(80, 28, 80, 60), 'thin'),
    pen.shape(spline(points(76, 84, 50, 92, 42, 116, 58, 128, 78, 120), true), 'shade', 'mid'),
    pen.shape(spline(points(84, 84, 110, 92, 118, 116, 102, 128, 82, 120), true), 'shade', 'mid'),
    pen.shape(spline(points(80, 84, 98, 112, 92, 142, 80, 152, 68, 142, 62, 112), true), 'paper', 'bold'),
  ],
  tiny: (pen) => [
    pen.stroke(points(80, 156, 80, 66), 'mid'),
    ...[-150, -125, -90, -55, -30].map((degrees) =>
      pen.stroke([[80, 104], toward([80, 104], degrees, 56)], 'thin'),
    ),
    ...[-150, -125, -90, -55, -30].map((degrees) => {
      const end = toward([80, 104], degrees, 58)
      return pen.dots([end, [end[0] - 7, end[1] + 5], [end[0] + 7, end[1] + 4], [end[0], end[1] - 8]], 2.6)
    }),
  ],
}
