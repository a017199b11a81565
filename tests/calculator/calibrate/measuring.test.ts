import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { whyVoid } from '#src/calculator/calibrate/kept.ts'
import { testNozzles } from '#src/calculator/calibrate/nozzles.ts'
import { effectiveSwath } from '#src/calculator/calibrate/pans.ts'
import { flowOf, measureSpeed } from '#src/calculator/calibrate/speed.ts'
import { containersFor, granularTarget, halfRate, testSpreader } from '#src/calculator/calibrate/spreader.ts'
import { big, compareNumbers, sumOf } from '#src/quantity/big.ts'
import { quantity } from '#src/quantity/quantity.ts'
import { areaRate } from '#src/quantity/rate.ts'
import { idsOf, resultOf, spoken, spokenAll } from '../sayable.ts'

const oz = (value: string) => quantity(value, 'fl oz')
const lb = (value: string) => quantity(value, 'lb')
const perThousand = { value: '1', unit: '1000 ft2' } as const

describe('catches of nozzles against their mean', () => {
  test('5 percent is noted and 10 percent fails', () => {
    const result = testNozzles(['40', '40', '40', '42.5', '37.5', '45', '35'].map(oz))
    expect(resultOf(result).nozzles.map((one) => one.state)).toEqual([
      'good',
      'good',
      'good',
      'note',
      'note',
      'fail',
      'fail',
    ])
    expect(result.ok && result.findings.map((one) => one.outcome)).toEqual([
      'heads-up',
      'heads-up',
      'hold',
      'hold',
    ])
    expect(spokenAll(result)).toContain(
      'Hold: nozzle 7 gives 35 fl oz, -12.5 % from the average. Over 10 %: replace the tip',
    )
  })

  test('the limit is a setting: 7 percent lets 6.25 pass', () => {
    const caught = ['40', '42.5', '37.5'].map(oz)
    expect(idsOf(testNozzles(caught, { notePercent: 5, failPercent: 10 }))).toHaveLength(2)
    expect(idsOf(testNozzles(caught, { notePercent: 7, failPercent: 10 }))).toEqual([])
  })

  test('a nozzle exactly at the limit passes', () => {
    expect(idsOf(testNozzles(['95', '105'].map(oz)))).toEqual([])
  })

  test('one nozzle has nothing to be compared with', () => {
    expect(idsOf(testNozzles([oz('40')]))).toEqual(['calibrate.two-nozzles'])
    expect(idsOf(testNozzles([oz('40'), oz('0')]))).toEqual(['calibrate.not-above-zero'])
  })

  test('deviations add up to nothing', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 9000 }), { minLength: 2, maxLength: 30 }), (caught) => {
        const { nozzles } = resultOf(testNozzles(caught.map((n) => oz(String(n)))))
        const sum = sumOf(nozzles.map((one) => one.deviationPercent))
        expect(big(sum).abs().lt('1e-30')).toBe(true)
      }),
    )
  })
})

describe('speed from distance and time', () => {
  test('200 ft in 34 s is 4.01 mph', () => {
    const { speed } = resultOf(measureSpeed([{ distance: quantity('200', 'ft'), time: quantity('34', 's') }]))
    expect(Number(speed.value)).toBeCloseTo(4.0107, 4)
  })

  test('runs are averaged and keep their spread', () => {
    const runs = ['30', '32'].map((s) => ({ distance: quantity('176', 'ft'), time: quantity(s, 's') }))
    const result = measureSpeed(runs)
    expect(resultOf(result).speed.value).toBe('3.875')
    expect(Number(resultOf(result).runs.spreadPercent)).toBeCloseTo(6.4516, 4)
    expect(idsOf(measureSpeed(runs, { spreadLimitPercent: 5 }))).toEqual(['calibrate.too-varied'])
  })

  test.each([
    ['0', '10', 'calibrate.not-above-zero'],
    ['200', '0', 'calibrate.not-above-zero'],
    ['200', '-4', 'calibrate.not-above-zero'],
    ['5280', '60', 'calibrate.absurd'],
  ])('%s ft in %s s is no speed', (ft, s, id) => {
    expect(idsOf(measureSpeed([{ distance: quantity(ft, 'ft'), time: quantity(s, 's') }]))).toEqual([id])
  })

  test('a catch over its time is a flow', () => {
    expect(flowOf(oz('64'), quantity('30', 's'))).toEqual(quantity('1', 'gal/min'))
  })
})

describe('spreaders', () => {
  test('the target is the nutrient over its share in the bag', () => {
    const target = areaRate('0.9', 'lb', perThousand, 'ai')
    expect(resultOf(granularTarget(target, '25'))).toEqual(areaRate('3.6', 'lb', perThousand))
    expect(idsOf(granularTarget(target, '0'))).toEqual(['calibrate.bad-analysis'])
    expect(idsOf(granularTarget(target, '100.1'))).toEqual(['calibrate.bad-analysis'])
  })

  const run = (after: string) => ({ before: lb('20'), after: lb(after), ground: quantity('5000', 'ft2') })
  const target = areaRate('3', 'lb', perThousand)

  test.each([
    ['5', '3', 'calibrate.none'],
    ['4.25', '3.15', 'calibrate.none'],
    ['4.24', '3.152', 'calibrate.spreader-heavy'],
    ['5.75', '2.85', 'calibrate.none'],
    ['5.76', '2.848', 'calibrate.spreader-light'],
  ])('with %s lb left the rate is %s: %s', (after, rate, id) => {
    const result = testSpreader([run(after)], { target })
    expect(resultOf(result).rate.value).toBe(rate)
    expect(idsOf(result)).toEqual(id === 'calibrate.none' ? [] : [id])
  })

  test('a target per acre is compared as it is meant', () => {
    const perAcre = areaRate('130.68', 'lb', { value: '1', unit: 'acre' })
    expect(resultOf(testSpreader([run('5')], { target: perAcre })).deviationPercent).toBe('0')
  })

  test('nothing fell, or the hopper got heavier: weigh again', () => {
    expect(idsOf(testSpreader([run('20')]))).toEqual(['calibrate.nothing-fell'])
    expect(idsOf(testSpreader([run('21')]))).toEqual(['calibrate.nothing-fell'])
  })

  test('an emptied hopper is a valid run', () => {
    expect(resultOf(testSpreader([run('0')])).rate.value).toBe('4')
  })

  test('two directions take half the rate each', () => {
    const half = halfRate(target)
    expect(compareNumbers(big(half.value).times(2), target.value)).toBe(0)
  })

  test('containers are always rounded up, and a whole number stays', () => {
    expect(containersFor(lb('100'), lb('50'))).toBe(2)
    expect(containersFor(lb('100.001'), lb('50'))).toBe(3)
    expect(containersFor(quantity('0.3', 'gal'), quantity('0.1', 'gal'))).toBe(3)
  })
})

describe('effective swath from pans', () => {
  const pans = (row: readonly (readonly [offset: string, caught: string])[]) =>
    row.map(([offset, caught]) => ({ offset: quantity(offset, 'ft'), caught }))

  test('pans that caught just half mark the swath', () => {
    const row = pans([
      ['-8', '2'],
      ['-6', '5'],
      ['-3', '9'],
      ['0', '10'],
      ['3', '9'],
      ['6', '5'],
      ['8', '1'],
    ])
    expect(resultOf(effectiveSwath(row)).swath).toEqual(quantity('12', 'ft'))
  })

  test('between two pans the half is read on a straight line', () => {
    const row = pans([
      ['-4', '2'],
      ['0', '10'],
      ['4', '6'],
      ['8', '2'],
    ])
    const { left, right } = resultOf(effectiveSwath(row))
    expect([left.value, right.value]).toEqual(['2.5', '5'])
    expect(idsOf(effectiveSwath(row))).toEqual(['calibrate.lopsided'])
  })

  test.each([
    [
      pans([
        ['-4', '2'],
        ['4', '2'],
      ]),
      'calibrate.no-center-pan',
    ],
    [
      pans([
        ['-4', '2'],
        ['0', '0'],
        ['4', '2'],
      ]),
      'calibrate.no-center-pan',
    ],
    [
      pans([
        ['-4', '8'],
        ['0', '10'],
        ['4', '2'],
      ]),
      'calibrate.pans-too-few',
    ],
    [
      pans([
        ['-4', '2'],
        ['0', '10'],
        ['4', '8'],
      ]),
      'calibrate.pans-too-few',
    ],
    [
      pans([
        ['-4', '-2'],
        ['0', '10'],
        ['4', '8'],
      ]),
      'calibrate.negative-catch',
    ],
  ])('asks for what is lacking: %o', (row, id) => {
    expect(idsOf(effectiveSwath(row))).toEqual([id])
  })
})

describe('a kept calibration', () => {
  const kept = { sprayer: 'Can 1', person: 'Ana', tip: 'flat 03', pressure: quantity('40', 'psi') }

  test('holds for the same sprayer, person, tip and pressure in any unit', () => {
    expect(whyVoid(kept, { ...kept, pressure: quantity('40.0', 'psi') })).toEqual([])
    const inBar = { ...kept, pressure: quantity('2', 'bar') }
    expect(whyVoid(inBar, { ...inBar, pressure: quantity('200', 'kPa') })).toEqual([])
  })

  test.each([
    [{ tip: 'flat 04' }, 'calibrate.other-tip'],
    [{ person: 'Bo' }, 'calibrate.other-person'],
    [{ sprayer: 'Can 2' }, 'calibrate.other-sprayer'],
    [{ pressure: quantity('30', 'psi') }, 'calibrate.other-pressure'],
    [{ setting: 'gear 2' }, 'calibrate.other-setting'],
  ])('is void with another %o', (change, id) => {
    const found = whyVoid(kept, { ...kept, ...change })
    expect(found.map((one) => one.id)).toEqual([id])
    expect(found.map(spoken)).toHaveLength(1)
  })
})
