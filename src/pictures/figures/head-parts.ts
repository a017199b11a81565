import type { SvgNode } from '../svg.ts'
import { type Line, type Point, placesOn, points, spline, toward } from './geometry.ts'
import { leafOutline } from './parts.ts'
import type { Pen, Weight } from './pen.ts'

/** One seed packet: a pointed grain. */
export function grain(
  pen: Pen,
  at: Point,
  degrees: number,
  length: number,
  weight: Weight = 'thin',
): SvgNode {
  return pen.shape(leafOutline([at, toward(at, degrees, length)], length * 0.46), 'shade', weight)
}

/** A thin branch with two close rows of small grains on one side, as on finger grasses. */
export function seededBranch(pen: Pen, line: Line, side: 1 | -1, grains = 9): SvgNode[] {
  return [
    ...placesOn(line, grains, 0.12, 0.97).map(({ point, degrees }) =>
      grain(pen, point, degrees + side * 32, 13, 'hair'),
    ),
    pen.stroke(line, 'mid'),
  ]
}

/** A branch that leaves at an angle and bows a little outward. */
export function branch(from: Point, degrees: number, length: number, bow = 12): Line {
  return spline([from, toward(from, degrees - bow / 2, length * 0.5), toward(from, degrees, length)])
}

export function stalk(pen: Pen, top: number, bottom = 158, weight: Weight = 'bold'): SvgNode {
  return pen.stroke(points(80, bottom, 80, top), weight)
}

/** The long leaves that sit right under a sedge's head. */
export function bracts(pen: Pen, at: Point, size: number): SvgNode[] {
  return [200, 340, 168].map((degrees) => {
    const end = toward(at, degrees, size)
    return pen.shape(
      leafOutline(spline([at, [(at[0] + end[0]) / 2, (at[1] + end[1]) / 2 - 8], end]), 8),
      'paper',
      'thin',
    )
  })
}

/** Rays of a sedge's umbrella: where they end and which way they point. */
export function rays(
  from: Point,
  count: number,
  length: number,
  spread = 75,
): readonly { readonly line: Line; readonly end: Point; readonly degrees: number }[] {
  return Array.from({ length: count }, (_, n) => {
    const degrees = -90 + (count === 1 ? 0 : (n / (count - 1)) * 2 - 1) * spread
    const end = toward(from, degrees, length)
    return { line: [from, end], end, degrees }
  })
}
