import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { acresPerHour, stripArea, timeFor } from '#src/calculator/area/cover.ts'
import { measureGround } from '#src/calculator/area/measure-ground.ts'
import { measureShape } from '#src/calculator/area/measure-shape.ts'
import { PI, simpsonRule, trapezoidRule } from '#src/calculator/area/plane.ts'
import { Shape } from '#src/calculator/area/shape.ts'
import { big, compareNumbers } from '#src/quantity/big.ts'
import { convert, quantity } from '#src/quantity/quantity.ts'
import { idsOf, resultOf, spokenAll } from '../sayable.ts'

const ft = (value: string | number) => quantity(value, 'ft')
const offsets = (rule: 'trapezoid' | 'simpson', spacing: number, ...widths: number[]): Shape => ({
  shape: 'offsets',
  rule,
  spacing: ft(spacing),
  offsets: widths.map(ft),
})
const areaOf = (shape: Shape) => resultOf(measureShape(shape)).value

describe('area of one shape', () => {
  test.each<[Shape, string]>([
    [{ shape: 'rectangle', length: ft(60), width: ft('25.5') }, '1530'],
    [{ shape: 'rectangle', length: quantity(20, 'yd'), width: quantity(300, 'in') }, '1500'],
    [{ shape: 'triangle', base: ft(30), height: ft(26) }, '390'],
    [{ shape: 'triangle-sides', sides: [ft(3), ft(4), ft(5)] }, '6'],
    [{ shape: 'trapezoid', sides: [ft('19.4'), ft('39.6')], height: ft(25) }, '737.5'],
    [offsets('trapezoid', 10, 0, 8, 12, 0), '200'],
    [offsets('simpson', 10, 0, 9, 0), '120'],
    [{ shape: 'known', area: quantity(2, 'acre') }, '87120'],
  ])('%o holds %s ft2', (shape, ft2) => {
    expect(Shape.parse(shape)).toEqual(shape)
    expect(areaOf(shape)).toBe(ft2)
  })

  test('a circle is the same by radius, diameter and circumference', () => {
    const by = (kind: 'radius' | 'diameter' | 'circumference', measure: ReturnType<typeof ft>) =>
      areaOf({ shape: 'circle', by: kind, measure })
    const around = quantity(PI.times(80), 'ft')
    expect(Number(by('diameter', ft(80)))).toBeCloseTo(5026.548, 3)
    expect(by('radius', ft(40))).toBe(by('diameter', ft(80)))
    expect(compareNumbers(by('circumference', around), by('diameter', ft(80)))).toBe(0)
  })

  test('a round lawn with 800 ft around it holds 50,929.6 ft2', () => {
    expect(Number(areaOf({ shape: 'circle', by: 'circumference', measure: ft(800) }))).toBeCloseTo(
      50929.58,
      2,
    )
  })

  test('an ellipse of equal axes is a circle', () => {
    const round = areaOf({ shape: 'circle', by: 'diameter', measure: ft(33) })
    expect(areaOf({ shape: 'ellipse', long: ft(33), short: ft(33) })).toBe(round)
  })

  test('the unit of the result is chosen', () => {
    const square: Shape = { shape: 'rectangle', length: quantity(100, 'm'), width: quantity(100, 'm') }
    expect(resultOf(measureShape(square, 'ha'))).toEqual(quantity(1, 'ha'))
    expect(resultOf(measureShape(square, 'acre')).unit).toBe('acre')
  })

  test.each<[Shape, string[]]>([
    [{ shape: 'rectangle', length: ft(0), width: ft(10) }, ['area.not-above-zero']],
    [{ shape: 'rectangle', length: ft(-5), width: ft(0) }, ['area.not-above-zero', 'area.not-above-zero']],
    [{ shape: 'rectangle', length: quantity(11, 'mi'), width: ft(10) }, ['area.absurd']],
    [{ shape: 'triangle-sides', sides: [ft(1), ft(2), ft(3)] }, ['area.sides-do-not-meet']],
    [{ shape: 'triangle-sides', sides: [ft(1), ft(0), ft(3)] }, ['area.not-above-zero']],
    [{ shape: 'known', area: quantity(0, 'ft2') }, ['area.not-above-zero']],
    [offsets('trapezoid', 0, 1, 2), ['area.not-above-zero']],
    [offsets('trapezoid', 10, 0, 0, 0), ['area.offsets-all-zero']],
    [offsets('simpson', 10, 4, -1, 3), ['area.offset-below-zero']],
  ])('%o cannot be measured', (shape, ids) => {
    expect(idsOf(measureShape(shape))).toEqual(ids)
  })
})

describe('ground with beds and buildings in it', () => {
  const lot: Shape = { shape: 'rectangle', length: ft(100), width: ft(80) }
  const house: Shape = { shape: 'rectangle', length: ft(40), width: ft(30) }
  const bed: Shape = { shape: 'circle', by: 'radius', measure: ft(10) }

  test('pieces add up and what is not treated is taken away', () => {
    const result = measureGround({ pieces: [lot, house], without: [house] })
    expect(resultOf(result).area.value).toBe('8000')
    expect(resultOf(result).pieces.map((one) => one.value)).toEqual(['8000', '1200'])
    expect(spokenAll(result)).toHaveLength(5)
  })

  test('taking away as much as there is leaves nothing to treat', () => {
    expect(idsOf(measureGround({ pieces: [house], without: [house] }))).toEqual(['area.nothing-left'])
    expect(idsOf(measureGround({ pieces: [], without: [] }))).toEqual(['area.nothing-measured'])
  })

  test('every shape that cannot be measured is named', () => {
    const flat: Shape = { shape: 'rectangle', length: ft(0), width: ft(10) }
    expect(idsOf(measureGround({ pieces: [flat, lot], without: [flat] }))).toHaveLength(2)
  })

  test('parts come in the unit of the whole', () => {
    const { area, without } = resultOf(measureGround({ pieces: [lot], without: [bed] }, 'acre'))
    expect([area.unit, without[0]?.unit]).toEqual(['acre', 'acre'])
    expect(Number(convert(area, 'ft2').value)).toBeCloseTo(8000 - Math.PI * 100, 6)
  })
})

const side = fc.integer({ min: 1, max: 50_000 }).map((n) => big(n).div(100))
const width = fc.integer({ min: 0, max: 5000 }).map((n) => big(n).div(10))

describe('a shape split in two', () => {
  test('rectangles and trapezoids add up', () => {
    fc.assert(
      fc.property(side, side, side, (a, b, height) => {
        const rectangle = (length: typeof a): Shape => ({
          shape: 'rectangle',
          length: quantity(length, 'ft'),
          width: quantity(height, 'ft'),
        })
        const whole = areaOf(rectangle(a.plus(b)))
        expect(compareNumbers(big(areaOf(rectangle(a))).plus(areaOf(rectangle(b))), whole)).toBe(0)
        const trapezoid = (low: typeof a, top: typeof a): Shape => ({
          shape: 'trapezoid',
          sides: [quantity(low, 'ft'), quantity(top, 'ft')],
          height: quantity(height, 'ft'),
        })
        const parts = big(areaOf(trapezoid(a, a))).plus(areaOf(trapezoid(b, b)))
        expect(compareNumbers(parts, areaOf(trapezoid(a.plus(b), a.plus(b))))).toBe(0)
      }),
    )
  })

  test('a triangle is the sum of the two on either side of its height', () => {
    fc.assert(
      fc.property(side, side, side, (left, right, height) => {
        const sides = (base: typeof left): Shape => {
          const slope = base.pow(2).plus(height.pow(2)).sqrt()
          return {
            shape: 'triangle-sides',
            sides: [base, height, slope].map((one) => quantity(one, 'ft')) as never,
          }
        }
        const whole = areaOf({
          shape: 'triangle',
          base: quantity(left.plus(right), 'ft'),
          height: quantity(height, 'ft'),
        })
        const parts = big(areaOf(sides(left))).plus(areaOf(sides(right)))
        expect(Number(parts)).toBeCloseTo(Number(whole), 6)
      }),
    )
  })

  test('offsets split at any of them add up by the trapezoid rule', () => {
    fc.assert(
      fc.property(fc.array(width, { minLength: 3, maxLength: 30 }), side, fc.nat(), (row, spacing, n) => {
        const at = 1 + (n % (row.length - 2))
        const parts = trapezoidRule(row.slice(0, at + 1), spacing).plus(trapezoidRule(row.slice(at), spacing))
        expect(compareNumbers(parts, trapezoidRule(row, spacing))).toBe(0)
      }),
    )
  })
})

describe("Simpson's rule", () => {
  const coefficient = fc.integer({ min: -50, max: 50 })

  test('is the exact integral of any quadratic', () => {
    fc.assert(
      fc.property(
        coefficient,
        coefficient,
        coefficient,
        side,
        fc.integer({ min: 1, max: 12 }),
        (a, b, c, h, n) => {
          const at = (x: typeof h) => big(a).times(x.pow(2)).plus(big(b).times(x)).plus(c)
          const row = Array.from({ length: 2 * n + 1 }, (_, index) => at(h.times(index)))
          const end = h.times(2 * n)
          const integral = big(a)
            .times(end.pow(3))
            .div(3)
            .plus(big(b).times(end.pow(2)).div(2))
            .plus(end.times(c))
          expect(compareNumbers(simpsonRule(row, h).minus(integral).abs().lt('1e-35') ? 0 : 1, 0)).toBe(0)
        },
      ),
    )
  })

  test('with an even number counts the last strip as a trapezoid, and says so', () => {
    const odd = offsets('simpson', 10, 4, 9, 6)
    const even = offsets('simpson', 10, 4, 9, 6, 8)
    expect(idsOf(measureShape(odd))).toEqual([])
    expect(idsOf(measureShape(even))).toEqual(['area.simpson-even'])
    expect(Number(areaOf(even))).toBeCloseTo(Number(areaOf(odd)) + 70, 12)
  })

  test('two widths are one trapezoid', () => {
    expect(areaOf(offsets('simpson', 10, 4, 8))).toBe('60')
  })

  test('agrees with trapezoids on straight edges', () => {
    expect(areaOf(offsets('simpson', 5, 2, 4, 6, 8, 10))).toBe(
      areaOf(offsets('trapezoid', 5, 2, 4, 6, 8, 10)),
    )
  })
})

describe('time for an area', () => {
  test('8.25 ft wide at 1 mph is an acre an hour', () => {
    expect(acresPerHour(quantity(1, 'mph'), ft('8.25'))).toEqual(quantity(1, 'acre'))
    expect(stripArea(quantity(1, 'mi'), ft('8.25'), 'acre')).toEqual(quantity(1, 'acre'))
    expect(compareNumbers(timeFor(quantity(1, 'acre'), quantity(1, 'mph'), ft('8.25')).value, 60)).toBe(0)
  })
})
