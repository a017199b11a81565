import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { rateOnBands } from '#src/calculator/spot/band.ts'
import { dilute, liquidForSpray, powderForSpray } from '#src/calculator/spot/dilute.ts'
import { sulfateForWater } from '#src/calculator/spot/hard-water.ts'
import { ACRE_FOOT, ppmOf, weightForPpm } from '#src/calculator/spot/ppm.ts'
import { groundPerGallon, rateOfPercent, spotShare } from '#src/calculator/spot/spot-rate.ts'
import { publishedWaterLbPerGal, waterSpreadPercent, weighWater } from '#src/calculator/spot/water.ts'
import { big, compareNumbers } from '#src/quantity/big.ts'
import { quantity } from '#src/quantity/quantity.ts'
import type { Output } from '#src/quantity/rate.ts'
import { areaRate } from '#src/quantity/rate.ts'
import { idsOf, resultOf } from '../sayable.ts'

const acre = { value: '1', unit: 'acre' } as const
const perThousand = { value: '1', unit: '1000 ft2' } as const
const output = (value: string): Output => ({ value, unit: 'gal', per: perThousand })

describe('bands', () => {
  const inches = (value: string) => quantity(value, 'in')

  test('less goes on the field, as much in the band', () => {
    const { perField, inBand, sprayedPercent } = resultOf(
      rateOnBands(areaRate('3', 'lb', acre), inches('12'), quantity('4', 'ft')),
    )
    expect([perField.value, inBand.value, sprayedPercent]).toEqual(['0.75', '3', '25'])
  })

  test.each([
    ['0', '30', 'spot.not-above-zero'],
    ['10', '-1', 'spot.not-above-zero'],
    ['31', '30', 'spot.band-wider-than-row'],
  ])('a band of %s in on rows of %s in is no band', (band, row, id) => {
    expect(idsOf(rateOnBands(areaRate('3', 'lb', acre), inches(band), inches(row)))).toContain(id)
  })

  test('a band as wide as the row is broadcast', () => {
    const { perField } = resultOf(rateOnBands(areaRate('3', 'lb', acre), inches('30'), quantity('30', 'in')))
    expect(perField.value).toBe('3')
  })
})

describe('a percent mix', () => {
  const form = { unit: 'fl oz', per: perThousand } as const

  test('is more product on the ground the wetter one sprays', () => {
    const at = (out: string) => resultOf(rateOfPercent('2', output(out), form)).value
    expect([at('1'), at('2'), at('0.5')]).toEqual(['2.56', '5.12', '1.28'])
  })

  test('told per acre is 43.56 times that', () => {
    const rate = resultOf(rateOfPercent('2', output('1'), { unit: 'fl oz', per: acre }))
    expect(compareNumbers(rate.value, big('2.56').times('43.56'))).toBe(0)
  })

  test.each([
    ['0', '1', 'spot.not-above-zero'],
    ['100.5', '1', 'spot.above-hundred'],
    ['2', '0', 'spot.not-above-zero'],
  ])('%s percent at %s is refused', (percent, out, id) => {
    expect(idsOf(rateOfPercent(percent, output(out), form))).toEqual([id])
  })

  test('one gallon covers what the output says', () => {
    expect(resultOf(groundPerGallon(output('2'), 'ft2'))).toEqual(quantity('500', 'ft2'))
    const perAcre: Output = { value: '20', unit: 'gal', per: acre }
    expect(resultOf(groundPerGallon(perAcre))).toEqual(quantity('0.05', 'acre'))
  })

  test('spots are a share of the area, never more than it', () => {
    expect(resultOf(spotShare(quantity('450', 'ft2'), quantity('4500', 'ft2')))).toBe('10')
    expect(idsOf(spotShare(quantity('1', 'acre'), quantity('4500', 'ft2')))).toEqual(['spot.more-than-area'])
  })
})

describe('weaker from stronger', () => {
  test('concentrate and carrier are together the amount', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9999 }), fc.integer({ min: 1, max: 99 }), (amount, wanted) => {
        const whole = quantity(amount, 'gal')
        const { concentrate, carrier } = resultOf(dilute(whole, String(wanted), '99'))
        expect(compareNumbers(big(concentrate.value).plus(carrier.value), whole.value)).toBe(0)
      }),
    )
  })

  test('a product that is too weak makes no stronger spray', () => {
    const ten = quantity('10', 'gal')
    expect(idsOf(dilute(ten, '5', '4'))).toEqual(['spot.too-weak'])
    expect(idsOf(powderForSpray(ten, '5', '4'))).toEqual(['spot.too-weak'])
    expect(idsOf(liquidForSpray(ten, '50', '4'))).toEqual(['spot.too-weak'])
    expect(idsOf(liquidForSpray(ten, '1', '0'))).toEqual(['spot.not-above-zero'])
  })

  test('liquid and powder of the same strength by weight bring the same active', () => {
    const lb = resultOf(powderForSpray(quantity('100', 'gal'), '1', '50'))
    const gal = resultOf(liquidForSpray(quantity('100', 'gal'), '1', '4'))
    expect(compareNumbers(big(lb.value).times('0.5'), big(gal.value).times(4))).toBe(0)
  })
})

describe('water', () => {
  test('weighs 8.34 lb a gallon, with 0.3 percent between the sources', () => {
    expect(weighWater(quantity('10', 'gal'))).toEqual(quantity('83.4', 'lb'))
    expect(publishedWaterLbPerGal.map((lb) => weighWater(quantity('1', 'gal'), 'lb', lb).value)).toEqual([
      '8.33',
      '8.34',
      '8.355',
    ])
    expect(Number(waterSpreadPercent())).toBeCloseTo(0.3, 2)
  })

  test('one ppm is a milligram in a liter: 2.72 lb an acre-foot, 0.0038 g a gallon', () => {
    expect(Number(resultOf(weightForPpm('1', ACRE_FOOT, 'lb')).value)).toBeCloseTo(2.719, 3)
    expect(Number(resultOf(weightForPpm('1', quantity('1', 'gal'))).value)).toBeCloseTo(0.0038, 4)
  })

  test('ppm of the weight for so many ppm are those', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9999 }), fc.integer({ min: 1, max: 9999 }), (ppm, gallons) => {
        const water = quantity(gallons, 'gal')
        const weight = resultOf(weightForPpm(String(ppm), water, 'lb'))
        expect(compareNumbers(resultOf(ppmOf(weight, water)), ppm)).toBe(0)
      }),
    )
  })

  test('hard water: each ion has its share, and the label comes first', () => {
    const result = sulfateForWater({
      calcium: '300',
      magnesium: '50',
      sodium: '20',
      potassium: '10',
      iron: '1',
    })
    expect(resultOf(result).value).toBe('3.562')
    expect(idsOf(result)).toEqual(['spot.sulfate-label-first'])
    expect(idsOf(sulfateForWater({ calcium: '-1' }))).toEqual(['spot.ppm-below-zero'])
  })
})
