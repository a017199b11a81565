import type { Line } from './geometry.ts'
import { mirrored, spline } from './geometry.ts'
import { frontJunction } from './junction.ts'
import type { FigureSet, Pen } from './pen.ts'

const bump: Line = spline([
  [56, 90],
  [44, 86],
  [40, 76],
  [48, 70],
  [57, 76],
  [60, 88],
])
const claw: Line = spline([
  [54, 92],
  [42, 84],
  [44, 68],
  [66, 60],
  [92, 70],
  [70, 72],
  [58, 78],
  [62, 90],
])

function both(pen: Pen, ear: Line, lower: number) {
  const shifted = mirrored(ear).map(([x, y]) => [x, y - lower] as const)
  return [pen.shape(shifted, 'paper', 'bold'), pen.shape(ear, 'paper', 'bold')]
}

/** Ears at the mouth of the sleeve. */
export const auricles: FigureSet = {
  none: (pen) => frontJunction(pen),
  short: (pen) => [...frontJunction(pen), ...both(pen, bump, 0)],
  claw: (pen) => [...frontJunction(pen), ...both(pen, claw, 14)],
}
