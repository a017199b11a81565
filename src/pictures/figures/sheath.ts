import { type Line, oval, points } from './geometry.ts'
import { rim } from './parts.ts'
import type { FigureSet } from './pen.ts'

const flatRim: Line = points(12, 46, 40, 36, 120, 38, 148, 46, 120, 54, 40, 56)

/** The sleeve round the stem: its outline where it is cut across. */
export const sheathShape: FigureSet = {
  flattened: (pen) => [
    pen.shape(points(12, 46, 148, 46, 140, 152, 20, 152), 'shade', 'no-line'),
    pen.stroke(points(12, 46, 20, 152), 'bold'),
    pen.stroke(points(148, 46, 140, 152), 'mid'),
    pen.shape(flatRim, 'paper', 'bold'),
    pen.shape(points(36, 46, 60, 43, 108, 44, 124, 46, 108, 48, 60, 49), 'ink', 'no-line'),
  ],
  round: (pen) => [
    pen.shape(points(38, 46, 122, 46, 118, 152, 42, 152), 'shade', 'no-line'),
    pen.stroke(points(38, 46, 42, 152), 'mid'),
    pen.stroke(points(122, 46, 118, 152), 'mid'),
    pen.shape(oval([80, 46], 42, 36), 'paper', 'bold'),
    pen.ring([80, 46], 18, 'shade', 'thin'),
  ],
}

/** The front of the sleeve: with a slit from top to bottom, or whole. */
export const sheathMargin: FigureSet = {
  open: (pen) => {
    const slit: Line = points(58, 50, 76, 152, 84, 152, 104, 50)
    return [
      pen.shape(points(34, 42, 126, 42, 120, 152, 40, 152), 'shade', 'no-line'),
      pen.shape(rim([80, 42], 46), 'paper', 'mid'),
      pen.shape(slit, 'paper', 'no-line'),
      pen.stroke(points(34, 42, 40, 152), 'mid'),
      pen.stroke(points(126, 42, 120, 152), 'mid'),
      pen.stroke(points(57, 54, 80, 152), 'bold'),
      pen.stroke(points(105, 54, 80, 152), 'bold'),
      pen.stroke(points(70, 6, 72, 112), 'thin'),
      pen.stroke(points(92, 6, 88, 112), 'thin'),
    ]
  },
  closed: (pen) => [
    pen.stroke(points(70, 6, 70, 36), 'thin'),
    pen.stroke(points(92, 6, 92, 36), 'thin'),
    pen.shape(points(34, 42, 126, 42, 120, 152, 40, 152), 'shade', 'no-line'),
    pen.stroke(points(34, 42, 40, 152), 'mid'),
    pen.stroke(points(126, 42, 120, 152), 'mid'),
    pen.shape(rim([80, 42], 46), 'paper', 'bold'),
    pen.stroke(points(70, 6, 70, 40), 'thin'),
    pen.stroke(points(92, 6, 92, 40), 'thin'),
  ],
}
