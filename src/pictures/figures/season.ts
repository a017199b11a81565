import { points, spline } from './geometry.ts'
import { leafOutline, snowflake, sun } from './parts.ts'
import type { FigureSet, Pen } from './pen.ts'

function leaf(pen: Pen) {
  const middle = spline(points(44, 150, 70, 124, 126, 104))
  return [pen.shape(leafOutline(middle, 44), 'shade', 'bold'), pen.stroke(middle, 'thin')]
}

/** Green in the heat, or green in the cold. */
export const season: FigureSet = {
  warm: (pen) => [...sun(pen, [80, 46], 22), ...leaf(pen)],
  cool: (pen) => [...snowflake(pen, [80, 46], 40), ...leaf(pen)],
}
