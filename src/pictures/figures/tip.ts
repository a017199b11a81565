import { type Line, mirrored, moved, points, spline } from './geometry.ts'
import type { FigureSet } from './pen.ts'

/** Right half of an outline, closed over the axis x = 80. */
function whole(right: Line): Line {
  return [...mirrored(right), ...[...right].reverse()]
}

const hull = whole(spline(points(104, 156, 104, 90, 102, 60, 94, 36, 80, 18)))
const inside = whole(spline(points(94, 156, 94, 96, 90, 70, 80, 44)))

/** The uncut end of a blade. */
export const tip: FigureSet = {
  boat: (pen) => [
    pen.shape(moved(hull, -36, 0), 'shade', 'bold'),
    pen.shape(moved(inside, -36, 0), 'paper', 'thin'),
    pen.stroke(points(44, 156, 44, 20), 'thin'),
    // The same tip pressed flat: it splits.
    pen.shape(
      [
        [100, 156],
        [100, 84],
        ...spline(points(100, 84, 102, 46, 112, 22)),
        ...spline(points(112, 22, 121, 50, 124, 82)),
        ...spline(points(124, 82, 127, 50, 136, 22)),
        ...spline(points(136, 22, 146, 46, 148, 84)),
        [148, 156],
      ],
      'shade',
      'mid',
    ),
    pen.stroke(points(124, 156, 124, 84), 'hair'),
  ],
  pointed: (pen) => [
    pen.shape(whole(spline(points(104, 156, 102, 110, 94, 60, 80, 6))), 'shade', 'bold'),
    pen.stroke(points(80, 156, 80, 20), 'thin'),
  ],
  blunt: (pen) => [
    pen.shape(whole(spline(points(106, 156, 106, 80, 104, 46, 96, 28, 80, 22))), 'shade', 'bold'),
    pen.stroke(points(80, 156, 80, 34), 'thin'),
  ],
}
