import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  hatchLines,
  lengthOf,
  oval,
  placeOn,
  placesOn,
  points,
  ribbon,
  spline,
  turned,
} from '#src/pictures/figures/geometry.ts'

const coordinate = fc.double({ min: -500, max: 500, noNaN: true })

describe('geometry of figures', () => {
  test('a curve goes through its first and last point', () => {
    const line = spline(points(0, 0, 10, 20, 40, 5))
    expect(line[0]).toEqual([0, 0])
    expect(line.at(-1)).toEqual([40, 5])
  })

  test('places lie at even distances along a line', () => {
    const bent = points(0, 0, 10, 0, 10, 30)
    expect(placesOn(bent, 5).map((place) => place.point)).toEqual([
      [0, 0],
      [10, 0],
      [10, 10],
      [10, 20],
      [10, 30],
    ])
    expect(placeOn(bent, 1).degrees).toBe(90)
  })

  test('a ribbon is as wide as asked on both sides of its line', () => {
    const outline = ribbon(points(0, 0, 100, 0), () => 12)
    expect(Math.max(...outline.map(([, y]) => y))).toBeCloseTo(6, 9)
    expect(Math.min(...outline.map(([, y]) => y))).toBeCloseTo(-6, 9)
  })

  test('turning a line keeps its length', () => {
    fc.assert(
      fc.property(coordinate, coordinate, fc.integer({ min: -360, max: 360 }), (x, y, degrees) => {
        const line = points(0, 0, x, y, y, x)
        expect(lengthOf(turned(line, degrees, [3, 4]))).toBeCloseTo(lengthOf(line), 6)
      }),
    )
  })

  test('strokes that fill an outline never leave it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 180 }), fc.integer({ min: 20, max: 70 }), (degrees, radius) => {
        const strokes = hatchLines(oval([80, 80], radius), degrees, 6)
        expect(strokes.length).toBeGreaterThan(3)
        for (const [x, y] of strokes.flat())
          expect(Math.hypot(x - 80, y - 80)).toBeLessThanOrEqual(radius + 1e-6)
      }),
    )
  })
})
