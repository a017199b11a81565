import type { SvgNode } from '../svg.ts'
import { type Line, moved, placesOn, points, spline, toward } from './geometry.ts'
import { bladeOutline } from './parts.ts'
import type { Figure, FigureSet, Pen } from './pen.ts'

const middle = spline(points(56, 72, 84, 58, 120, 46, 152, 44))
const WIDTH = 38

/** A shoot: bare stem with a joint at the bottom, the sleeve above it, one blade to the right. */
function shoot(pen: Pen): SvgNode[] {
  return [
    pen.shape(points(49, 116, 63, 116, 63, 158, 49, 158), 'paper', 'no-line'),
    pen.stroke(points(49, 124, 49, 158), 'mid'),
    pen.stroke(points(63, 124, 63, 158), 'mid'),
    pen.stroke(points(50, 4, 50, 66), 'thin'),
    pen.stroke(points(62, 4, 62, 60), 'thin'),
    pen.shape(bladeOutline(middle, WIDTH), 'shade', 'mid'),
    pen.shape(points(42, 72, 72, 72, 67, 120, 45, 120), 'shade', 'mid'),
    pen.shape(points(43, 118, 69, 118, 69, 127, 43, 127), 'paper', 'mid'),
  ]
}

type Part = (pen: Pen) => readonly SvgNode[]

/** The sides of the blade outline: above, then below on the way back. */
const upper: Line = bladeOutline(middle, WIDTH).slice(3, 22)
const lower: Line = bladeOutline(middle, WIDTH).slice(26, 45)

const atCollar: Part = (pen) => [
  ...[-150, -165, 180, 165].map((degrees) => pen.stroke([[44, 72], toward([44, 72], degrees, 30)], 'thin')),
  ...[-100, -80, -60].map((degrees) => pen.stroke([[68, 64], toward([68, 64], degrees, 34)], 'thin')),
  ...[20, 45, 70].map((degrees) => pen.stroke([[72, 80], toward([72, 80], degrees, 26)], 'thin')),
]
const onMargin: Part = (pen) => [
  pen.hairs(upper, { count: 10, length: 11, side: -1, weight: 'thin' }),
  pen.hairs(lower, { count: 10, length: 11, side: -1, weight: 'thin' }),
]
const longAtBase: Part = (pen) =>
  points(78, 60, 86, 64, 92, 56).map(([x = 0, y = 0], n) =>
    pen.stroke(spline(points(x, y, x + 4 + n * 3, y - 26, x + 16 + n * 5, y - 50)), 'mid'),
  )
const onBlade: Part = (pen) =>
  [-9, 0, 9].map((shift) => {
    const row = placesOn(moved(middle, 0, shift), 6, 0.26, 0.86)
    return pen.hairs(
      row.map((place) => place.point),
      { count: 6, length: 12, side: -1, lean: 30, weight: 'thin' },
    )
  })
const onSheath: Part = (pen) => [
  pen.hairs(points(43, 112, 42, 80), { count: 5, length: 14, side: -1, lean: 10, weight: 'thin' }),
  pen.hairs(points(69, 112, 72, 80), { count: 5, length: 14, side: 1, lean: 10, weight: 'thin' }),
  pen.hairs(points(56, 114, 56, 84), { count: 4, length: 8, side: 0, lean: 40, weight: 'thin' }),
]
const onStem: Part = (pen) => [
  pen.hairs(points(49, 156, 49, 132), { count: 4, length: 18, side: -1, weight: 'thin' }),
  pen.hairs(points(63, 156, 63, 132), { count: 4, length: 18, side: 1, weight: 'thin' }),
]

function shootWith(...parts: readonly Part[]): Figure {
  return (pen) => [...shoot(pen), ...parts.flatMap((part) => part(pen))]
}

/** One shoot, hairs in one place of it. */
export const hairs: FigureSet = {
  none: shootWith(),
  collar: shootWith(atCollar),
  margin: shootWith(onMargin),
  'long-base': shootWith(longAtBase),
  blade: shootWith(onBlade),
  sheath: shootWith(onSheath),
  stem: shootWith(onStem),
  'all-over': shootWith(atCollar, onMargin, onBlade, onSheath, onStem),
}
