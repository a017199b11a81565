import { type Line, moved, oval, points } from './geometry.ts'
import { bent, blade, ground } from './parts.ts'
import type { Figure, FigureSet, Pen } from './pen.ts'

/** A cut stem: the cut face on top, the body going down and out of the picture. */
function cutStem(face: Line, ridges: Line): Figure {
  return (pen: Pen) => {
    const body = ridges.map(([x, y]) => pen.stroke(points(x, y, x, 152), 'thin'))
    const xs = face.map(([x]) => x)
    const [left, right] = [Math.min(...xs), Math.max(...xs)]
    const edge = (x: number) => face.find((point) => point[0] === x)?.[1] ?? 50
    const sides: Line = points(left, edge(left), left, 152, right, 152, right, edge(right))
    return [
      pen.shape(sides, 'paper', 'no-line'),
      pen.stroke(points(left, edge(left), left, 152), 'mid'),
      pen.stroke(points(right, edge(right), right, 152), 'mid'),
      ...body,
      pen.shape(face, 'shade', 'bold'),
    ]
  }
}

const triangle: Line = points(80, 14, 134, 84, 26, 84)
const square: Line = points(80, 12, 136, 48, 80, 84, 24, 48)

/** How a cut stem looks at its end. */
export const stemSection: FigureSet = {
  round: cutStem(oval([80, 52], 40, 38), []),
  flattened: cutStem(oval([80, 52], 66, 13), []),
  triangular: cutStem(triangle, []),
  square: cutStem(square, [[80, 84]]),
  none: (pen) => [
    ...ground(pen, 128),
    ...[-172, -148, -120, -60, -32, -8].map((degrees) => {
      return blade(pen, bent([80, 126], degrees, 74, degrees < -90 ? -24 : 24), 15, 'shade', 'mid')
    }),
    pen.dots(moved([[0, 0]], 80, 126), 5),
  ],
}
