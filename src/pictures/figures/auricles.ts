import { type Line, mirrored, points, ribbon, spline } from './geometry.ts'
import { frontJunction } from './junction.ts'
import type { FigureSet } from './pen.ts'

const bump: Line = spline(points(56, 90, 44, 86, 40, 76, 48, 70, 57, 76, 60, 88))
/** Starts at the left edge of the sleeve, swings out and crosses in front of the stem. */
const claw: Line = ribbon(
  spline(points(57, 98, 45, 88, 46, 72, 62, 64, 86, 68, 112, 82)),
  (share) => 13 * (1 - share * 0.92),
)
const otherClaw: Line = mirrored(claw).map(([x, y]) => [x, y - 16] as const)

/** Ears at the mouth of the sleeve. */
export const auricles: FigureSet = {
  none: (pen) => frontJunction(pen),
  short: (pen) => [
    ...frontJunction(pen),
    pen.shape(mirrored(bump), 'paper', 'bold'),
    pen.shape(bump, 'paper', 'bold'),
  ],
  claw: (pen) => [
    ...frontJunction(pen),
    pen.shape(otherClaw, 'paper', 'mid'),
    pen.shape(claw, 'paper', 'mid'),
  ],
}
