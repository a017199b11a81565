import type { SvgNode } from '../svg.ts'
import { type Line, points } from './geometry.ts'
import type { Figure, FigureSet, Pen } from './pen.ts'

/** A piece of a wide blade. */
function piece(draw: (pen: Pen) => readonly SvgNode[]): Figure {
  return (pen) => [
    pen.shape(points(30, 2, 130, 2, 130, 158, 30, 158), 'shade', 'no-line'),
    ...draw(pen),
    pen.stroke(points(30, 2, 30, 158), 'mid'),
    pen.stroke(points(130, 2, 130, 158), 'mid'),
  ]
}

const down = (x: number): Line => points(x, 2, x, 158)

/** Ribs of a blade held against the light. */
export const midrib: FigureSet = {
  strong: piece((pen) => [pen.stroke(down(80), 'bold')]),
  'white-strong': piece((pen) => [
    pen.shape(points(66, 2, 94, 2, 94, 158, 66, 158), 'white', 'no-line'),
    pen.stroke(down(66), 'thin'),
    pen.stroke(down(94), 'thin'),
  ]),
  'twin-lines': piece((pen) => [pen.stroke(down(73), 'mid'), pen.stroke(down(87), 'mid')]),
  'many-ribs': piece((pen) => [42, 55, 68, 80, 92, 105, 118].map((x) => pen.stroke(down(x), 'mid'))),
  faint: piece((pen) => [pen.stroke(down(80), 'mid', '9 8')]),
  none: piece(() => []),
}
