import { describe, expect, test } from 'vitest'
import type { Drawing, Point } from '#src/calculator/area/drawing.ts'
import { drawShape } from '#src/calculator/area/drawing.ts'
import { measureShape } from '#src/calculator/area/measure-shape.ts'
import type { Shape } from '#src/calculator/area/shape.ts'
import { quantity } from '#src/quantity/quantity.ts'
import { resultOf } from '../sayable.ts'

const ft = (value: number) => quantity(value, 'ft')

/** Area inside an outline, by the shoelace formula, so that what is drawn can be held against what is measured. */
function drawnFt2({ outline }: Drawing): number {
  if (outline.kind === 'ellipse') return Math.PI * outline.radiusXFt * outline.radiusYFt
  const { points } = outline
  const cross = points.map(([x, y], index) => {
    const [nextX, nextY] = points[(index + 1) % points.length] as Point
    return x * nextY - nextX * y
  })
  return Math.abs(cross.reduce((a, b) => a + b, 0)) / 2
}

describe('a drawing', () => {
  test.each<Shape>([
    { shape: 'rectangle', length: ft(60), width: ft(25) },
    { shape: 'triangle', base: ft(30), height: ft(26) },
    { shape: 'triangle-sides', sides: [ft(7), ft(12), ft(9)] },
    { shape: 'triangle-sides', sides: [ft(5), ft(5), ft(9.9)] },
    { shape: 'trapezoid', sides: [ft(20), ft(40)], height: ft(25) },
    { shape: 'trapezoid', sides: [ft(40), ft(20)], height: ft(25) },
    { shape: 'circle', by: 'radius', measure: ft(12) },
    { shape: 'circle', by: 'diameter', measure: ft(12) },
    { shape: 'circle', by: 'circumference', measure: ft(120) },
    { shape: 'ellipse', long: ft(60), short: ft(20) },
    { shape: 'offsets', rule: 'trapezoid', spacing: ft(10), offsets: [4, 9, 6, 0].map(ft) },
    { shape: 'known', area: quantity(900, 'ft2') },
  ])('of $shape shows just the area that was measured', (shape) => {
    const drawing = drawShape(shape)
    expect(drawnFt2(drawing)).toBeCloseTo(Number(resultOf(measureShape(shape)).value), 6)
    const ends = drawing.measures.flatMap(({ from, to }) => [from, to])
    for (const [x, y] of ends) {
      expect(x).toBeGreaterThanOrEqual(0)
      expect(y).toBeGreaterThanOrEqual(0)
      expect(x).toBeLessThanOrEqual(drawing.widthFt + 1e-9)
      expect(y).toBeLessThanOrEqual(drawing.heightFt + 1e-9)
    }
  })

  test('carries every measure in the unit in which it was taken', () => {
    const shape: Shape = { shape: 'rectangle', length: quantity(20, 'm'), width: ft(10) }
    expect(drawShape(shape).measures.map((one) => one.length)).toEqual([quantity(20, 'm'), ft(10)])
  })
})
