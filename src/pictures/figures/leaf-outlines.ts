import { type Line, mirrored, oval, points, spline } from './geometry.ts'

/** Mirrors the right half of an outline at x = 80, from top to bottom. */
export function bothSides(right: Line): Line {
  return [...right, ...[...mirrored(right)].reverse()]
}

/** Outlines of whole leaves with their base at the bottom, for a stalk that comes up from below. */
export const leafOutlines = {
  round: oval([80, 70], 56),
  kidney: spline(
    points(80, 104, 98, 128, 136, 116, 150, 76, 126, 38, 80, 28, 34, 38, 10, 76, 24, 116, 62, 128),
    true,
  ),
  heart: bothSides([...spline(points(80, 12, 106, 40, 130, 74, 128, 108, 106, 122, 88, 112, 80, 100))]),
  egg: bothSides(spline(points(80, 10, 104, 36, 122, 74, 118, 106, 98, 126, 80, 128))),
  oblong: bothSides([
    ...spline(points(80, 8, 98, 14, 106, 34)),
    ...spline(points(106, 100, 98, 122, 80, 128)),
  ]),
  lance: bothSides(spline(points(80, 4, 92, 44, 98, 78, 94, 108, 80, 130))),
  linear: bothSides(points(80, 4, 88, 16, 88, 128, 80, 132)),
  spoon: bothSides(spline(points(80, 8, 108, 16, 122, 42, 108, 70, 92, 90, 88, 130))),
  wedge: bothSides([...spline(points(80, 20, 106, 22, 132, 32)), [84, 130]]),
  triangular: bothSides(points(80, 8, 136, 122, 80, 122)),
  arrow: bothSides(points(80, 6, 106, 84, 142, 132, 96, 112, 80, 104)),
  teardrop: bothSides(spline(points(80, 18, 112, 28, 126, 58, 112, 88, 92, 112, 80, 132))),
} satisfies Record<string, Line>
