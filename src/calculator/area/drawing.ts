import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import { PI } from './plane.ts'
import type { Shape } from './shape.ts'

/** Feet to the right and feet up, from the lower left corner of the drawing. Only for the eye: plain numbers. */
export type Point = readonly [xFt: number, yFt: number]

export type Outline =
  | { readonly kind: 'polygon'; readonly points: readonly Point[] }
  | {
      readonly kind: 'ellipse'
      readonly center: Point
      readonly radiusXFt: number
      readonly radiusYFt: number
    }

/** A measured line of the drawing with what was measured along it. */
export interface DrawnMeasure {
  readonly from: Point
  readonly to: Point
  readonly length: Quantity
}

/** What a picture of a measured shape shows; it keeps the true proportions. */
export interface Drawing {
  readonly widthFt: number
  readonly heightFt: number
  readonly outline: Outline
  readonly measures: readonly DrawnMeasure[]
}

const feet = (length: Quantity) => amountIn(length, 'ft').toNumber()

/** The drawing of a shape whose measures have been checked. A known area is drawn as a square of its size. */
export function drawShape(shape: Shape): Drawing {
  switch (shape.shape) {
    case 'rectangle':
      return drawRectangle(shape.length, shape.width)
    case 'triangle':
      return drawTriangle(feet(shape.base), feet(shape.base) / 2, feet(shape.height), [
        { at: 'base', length: shape.base },
        { at: 'height', length: shape.height },
      ])
    case 'triangle-sides':
      return drawBySides(shape.sides)
    case 'trapezoid':
      return drawTrapezoid(shape.sides, shape.height)
    case 'circle':
      return drawCircle(shape.by, shape.measure)
    case 'ellipse':
      return drawEllipse(shape.long, shape.short)
    case 'offsets':
      return drawOffsets(shape.offsets, shape.spacing)
    case 'known': {
      const side = Math.sqrt(amountIn(shape.area, 'ft2').toNumber())
      return polygon(rectanglePoints(side, side), [])
    }
    default:
      return shape satisfies never
  }
}

function polygon(points: readonly Point[], measures: readonly DrawnMeasure[]): Drawing {
  const widthFt = Math.max(...points.map(([x]) => x))
  const heightFt = Math.max(...points.map(([, y]) => y))
  return { widthFt, heightFt, outline: { kind: 'polygon', points }, measures }
}

function rectanglePoints(width: number, height: number): Point[] {
  return [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ]
}

function drawRectangle(length: Quantity, width: Quantity): Drawing {
  const [x, y] = [feet(length), feet(width)]
  return polygon(rectanglePoints(x, y), [
    { from: [0, 0], to: [x, 0], length },
    { from: [x, 0], to: [x, y], length: width },
  ])
}

function drawTriangle(
  base: number,
  top: number,
  height: number,
  labels: readonly { readonly at: 'base' | 'height'; readonly length: Quantity }[],
): Drawing {
  const measures = labels.map(({ at, length }): DrawnMeasure => {
    return at === 'base'
      ? { from: [0, 0], to: [base, 0], length }
      : { from: [top, 0], to: [top, height], length }
  })
  return polygon(
    [
      [0, 0],
      [base, 0],
      [top, height],
    ],
    measures,
  )
}

/** The longest side lies at the bottom, so that the top stands above it. */
function drawBySides(sides: readonly [Quantity, Quantity, Quantity]): Drawing {
  const [base, left, right] = [...sides].sort((a, b) => feet(b) - feet(a)) as [Quantity, Quantity, Quantity]
  const [c, a, b] = [feet(base), feet(left), feet(right)]
  const x = (c * c + a * a - b * b) / (2 * c)
  const y = Math.sqrt(Math.max(0, a * a - x * x))
  return polygon(
    [
      [0, 0],
      [c, 0],
      [x, y],
    ],
    [
      { from: [0, 0], to: [c, 0], length: base },
      { from: [0, 0], to: [x, y], length: left },
      { from: [c, 0], to: [x, y], length: right },
    ],
  )
}

function drawTrapezoid([lower, upper]: readonly [Quantity, Quantity], height: Quantity): Drawing {
  const [a, b, y] = [feet(lower), feet(upper), feet(height)]
  const middle = Math.max(a, b) / 2
  const [left, right, topLeft, topRight] = [middle - a / 2, middle + a / 2, middle - b / 2, middle + b / 2]
  return polygon(
    [
      [left, 0],
      [right, 0],
      [topRight, y],
      [topLeft, y],
    ],
    [
      { from: [left, 0], to: [right, 0], length: lower },
      { from: [topLeft, y], to: [topRight, y], length: upper },
      { from: [middle, 0], to: [middle, y], length: height },
    ],
  )
}

function round(radiusXFt: number, radiusYFt: number, measures: readonly DrawnMeasure[]): Drawing {
  const outline: Outline = { kind: 'ellipse', center: [radiusXFt, radiusYFt], radiusXFt, radiusYFt }
  return { widthFt: 2 * radiusXFt, heightFt: 2 * radiusYFt, outline, measures }
}

function drawCircle(by: 'radius' | 'diameter' | 'circumference', measure: Quantity): Drawing {
  const radius = feet(measure) / { radius: 1, diameter: 2, circumference: 2 * PI.toNumber() }[by]
  const from: Point = by === 'radius' ? [radius, radius] : [0, radius]
  const edge: Point[] =
    by === 'circumference'
      ? [
          [radius, 0],
          [radius, 0],
        ]
      : [from, [2 * radius, radius]]
  const [start, end] = edge as [Point, Point]
  return round(radius, radius, [{ from: start, to: end, length: measure }])
}

function drawEllipse(long: Quantity, short: Quantity): Drawing {
  const [x, y] = [feet(long) / 2, feet(short) / 2]
  return round(x, y, [
    { from: [0, y], to: [2 * x, y], length: long },
    { from: [x, 0], to: [x, 2 * y], length: short },
  ])
}

function drawOffsets(offsets: readonly Quantity[], spacing: Quantity): Drawing {
  const across = feet(spacing)
  const tops = offsets.map((offset, index): Point => [index * across, feet(offset)])
  const end = (offsets.length - 1) * across
  const measures = tops.map(([x, y], index): DrawnMeasure => {
    return { from: [x, 0], to: [x, y], length: offsets[index] ?? spacing }
  })
  return polygon([[0, 0], ...tops, [end, 0]], measures)
}
