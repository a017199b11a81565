import { type Line, mirrored, points, ribbon, spline } from './geometry.ts'
import { frontJunction } from './junction.ts'
import type { FigureSet } from './pen.ts'

const bump: Line = spline(points(56, 90, 44, 86, 40, 76, 48, 70, 57, 76, 60, 88))
/** Both start at a corner of the sleeve, swing out and cross in front of the stem, one above the other. */
const upperClaw: Line = ribbon(
  spline(points(55, 96, 41, 84, 40, 64, 58, 52, 100, 58)),
  (share) => 13 * (1 - share * 0.94),
)
const lowerClaw: Line = ribbon(
  spline(points(105, 98, 119, 92, 117, 78, 100, 74, 62, 82)),
  (share) => 13 * (1 - share * 0.94),
)

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
    pen.shape(lowerClaw, 'paper', 'mid'),
    pen.shape(upperClaw, 'paper', 'mid'),
  ],
}
