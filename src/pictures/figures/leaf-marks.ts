import type { SvgNode } from '../svg.ts'
import { points, spline } from './geometry.ts'
import { leafOutlines } from './leaf-outlines.ts'
import type { Figure, FigureSet, Pen } from './pen.ts'

function marked(draw: (pen: Pen) => readonly SvgNode[]): Figure {
  return (pen) => [
    pen.stroke(points(80, 126, 80, 156), 'bold'),
    pen.shape(leafOutlines.egg, 'shade', 'mid'),
    ...draw(pen),
  ]
}

const patch = (x: number, y: number, size: number) =>
  spline(
    points(
      x - size,
      y,
      x - size * 0.3,
      y - size * 0.8,
      x + size,
      y - size * 0.4,
      x + size * 0.5,
      y + size * 0.7,
      x - size * 0.6,
      y + size * 0.8,
    ),
    true,
  )

export const leafMarks: FigureSet = {
  'mottled-yellow': marked((pen) =>
    [
      patch(78, 40, 12),
      patch(104, 64, 13),
      patch(62, 74, 12),
      patch(90, 92, 11),
      patch(64, 106, 10),
      patch(104, 108, 9),
    ].map((one) => pen.shape(one, 'yellow', 'hair')),
  ),
  spotted: marked((pen) => [pen.shape(patch(80, 78, 21), 'black', 'thin')]),
  'white-mark': marked((pen) => [
    pen.shape(points(44, 62, 80, 90, 116, 62, 116, 80, 80, 108, 44, 80), 'white', 'mid'),
  ]),
}
