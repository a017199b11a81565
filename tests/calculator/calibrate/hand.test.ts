import { describe, expect, test } from 'vitest'
import { calibrateByHand, calibrateByRefill } from '#src/calculator/calibrate/hand.ts'
import { calibrateByOunces, ounceCourse } from '#src/calculator/calibrate/ounce.ts'
import { PER_ACRE, PER_HECTARE } from '#src/calculator/calibrate/output.ts'
import { calibrateSpots, volumeForSpots } from '#src/calculator/calibrate/spots.ts'
import { strictest } from '#src/calculator/worked.ts'
import { decimalText } from '#src/quantity/big.ts'
import { quantity } from '#src/quantity/quantity.ts'
import { idsOf, resultOf, spokenAll } from '../sayable.ts'

const gal = (value: string) => quantity(value, 'gal')
const ft2 = (value: string) => quantity(value, 'ft2')

describe('output by ground and volume used', () => {
  test('half a gallon on 250 ft2 is 2 gallons per 1,000 ft2', () => {
    const { output, runs } = resultOf(calibrateByHand(ft2('250'), [gal('0.5')]))
    expect(output).toEqual({ value: '2', unit: 'gal', per: { value: '1', unit: '1000 ft2' } })
    expect(runs).toBeNull()
  })

  test('is told in the form asked for', () => {
    const told = (form: typeof PER_ACRE) =>
      resultOf(calibrateByHand(ft2('1000'), [gal('1')], { form })).output.value
    expect(told(PER_ACRE)).toBe('43.56')
    expect(Number(told(PER_HECTARE))).toBeCloseTo(407.458, 3)
  })

  test('averages several runs and keeps how far apart they lie', () => {
    const result = calibrateByHand(ft2('500'), [gal('0.5'), quantity('2.1', 'qt')])
    const { output, runs } = resultOf(result)
    expect(output.value).toBe('1.025')
    expect(Number(runs?.spreadPercent)).toBeCloseTo(4.878, 3)
    expect(idsOf(result)).toEqual([])
    expect(spokenAll(result)[0]).toBe('Average of 2 runs: 0.5125 gal')
  })

  test('holds runs that differ by more than the setting', () => {
    const used = [gal('0.5'), gal('0.56')]
    expect(idsOf(calibrateByHand(ft2('500'), used))).toEqual(['calibrate.too-varied'])
    expect(idsOf(calibrateByHand(ft2('500'), used, { spreadLimitPercent: 15 }))).toEqual([])
  })

  test('a spread of exactly the limit still passes', () => {
    const used = [gal('0.95'), gal('1.05')]
    expect(idsOf(calibrateByHand(ft2('1000'), used, { spreadLimitPercent: 10 }))).toEqual([])
  })

  test.each([
    ['0', '250', ['calibrate.not-above-zero']],
    ['-1', '250', ['calibrate.not-above-zero']],
    ['0.5', '0', ['calibrate.not-above-zero']],
    ['99999', '250', ['calibrate.absurd']],
    ['0', '-3', ['calibrate.not-above-zero', 'calibrate.not-above-zero']],
  ])('%s gal on %s ft2 gives no output', (used, ground, ids) => {
    expect(idsOf(calibrateByHand(ft2(ground), [gal(used)]))).toEqual(ids)
  })

  // Common practice, no source: 10 to 220 gal/acre are usual, ten times outside that is a slip.
  test.each([
    ['0.99', 'hold', ['calibrate.impossible-output']],
    ['1', 'heads-up', ['calibrate.unusual-output']],
    ['9.9', 'heads-up', ['calibrate.unusual-output']],
    ['10', 'answer', []],
    ['220', 'answer', []],
    ['220.1', 'heads-up', ['calibrate.unusual-output']],
    ['2200', 'heads-up', ['calibrate.unusual-output']],
    ['2201', 'hold', ['calibrate.impossible-output']],
  ])('%s gallons on an acre: %s', (used, outcome, ids) => {
    const found = calibrateByHand(quantity('1', 'acre'), [gal(used)])
    expect(idsOf(found)).toEqual(ids)
    expect(found.ok && strictest(found.findings)).toBe(outcome)
  })
})

test('refilling after a strip gives the output', () => {
  const strip = { used: [gal('4')], length: quantity('436', 'ft'), swath: quantity('10', 'ft') }
  const { output } = resultOf(calibrateByRefill(strip, { form: PER_ACRE }))
  expect(Number(output.value)).toBeCloseTo(39.963, 3)
})

describe('the 1/128 acre', () => {
  test.each([
    ['20', 'in', '204.1875'],
    ['30', 'in', '136.125'],
    ['9', 'ft', '37.8125'],
    ['12', 'ft', '28.359375'],
  ] as const)('course for %s %s is %s ft, exactly', (width, unit, course) => {
    expect(resultOf(ounceCourse(quantity(width, unit)))).toEqual({ value: course, unit: 'ft' })
  })

  test.each(['1', '25.5', '40', '87'])('%s fl oz caught is as many gallons per acre', (caught) => {
    expect(resultOf(calibrateByOunces([quantity(caught, 'fl oz')])).output.value).toBe(caught)
  })

  test('another size of plot is counted as it is', () => {
    const plot = ft2('340')
    const { output } = resultOf(calibrateByOunces([quantity('40', 'fl oz')], { plot }))
    expect(Number(output.value)).toBeCloseTo(40.0368, 4)
  })

  test('a swath of zero has no course', () => {
    expect(idsOf(ounceCourse(quantity('0', 'ft')))).toEqual(['calibrate.not-above-zero'])
  })
})

describe('spots sprayed to wet', () => {
  test('are measured by their number, with the output when their size is known', () => {
    const result = resultOf(calibrateSpots([gal('0.5')], 20, { spotArea: ft2('4') }))
    expect(result.perSpot).toEqual(gal('0.025'))
    expect(result.output?.value).toBe('6.25')
  })

  test('the volume for many spots is what one takes times their number', () => {
    expect(volumeForSpots(quantity('2', 'qt'), 6, 'gal')).toEqual(gal('3'))
  })

  test.each([0, -2, 1.5, Number.NaN])('%s spots are no number of spots', (spots) => {
    expect(idsOf(calibrateSpots([gal('1')], spots))).toEqual(['calibrate.bad-spots'])
  })

  test('a few spots are told to be few', () => {
    expect(idsOf(calibrateSpots([gal('1')], 4))).toEqual(['calibrate.few-spots'])
    expect(idsOf(calibrateSpots([gal('1')], 5))).toEqual([])
    expect(decimalText('0.2')).toBe(resultOf(calibrateSpots([gal('1')], 5)).perSpot.value)
  })
})
