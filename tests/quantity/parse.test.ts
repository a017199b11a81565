import { describe, expect, test } from 'vitest'
import { parseFill, parseQuantity } from '#src/quantity/parse.ts'
import {
  parseDensity,
  parseOutput,
  parseRate,
  parseRateForm,
  parseStrength,
} from '#src/quantity/parse-rate.ts'
import type { Dimension } from '#src/quantity/units.ts'
import { problemOf, sure } from './read.ts'

const ANY: readonly [Dimension, ...Dimension[]] = [
  'volume',
  'mass',
  'area',
  'length',
  'time',
  'speed',
  'flow',
  'pressure',
  'temperature',
  'fraction',
]

describe('an amount as people write it', () => {
  test.each([
    ['2 gal', '2', 'gal'],
    ['2gal', '2', 'gal'],
    ['1/2 gal', '0.5', 'gal'],
    ['1 1/2 pt', '1.5', 'pt'],
    ['1-1/2 pt', '1.5', 'pt'],
    ['½ gal', '0.5', 'gal'],
    ['1½ gal', '1.5', 'gal'],
    ['1\u00a0½\u2009gal', '1.5', 'gal'],
    ['1⁄4 cup', '0.25', 'cup'],
    ['.5 gal', '0.5', 'gal'],
    ['0.50 gal', '0.5', 'gal'],
    ['3,5 L', '3.5', 'L'],
    ['0,125 L', '0.125', 'L'],
    ['1,000 ft2', '1000', 'ft2'],
    ['1,234.5 ft2', '1234.5', 'ft2'],
    ['1.234,5 m2', '1234.5', 'm2'],
    ['1.500.000 mL', '1500000', 'mL'],
    ['18.5k ft2', '18500', 'ft2'],
    ['18.5 thousand sq ft', '18500', 'ft2'],
    ['10\u202f000 ft²', '10000', 'ft2'],
    ['６ gal', '6', 'gal'],
    ['5000 sq. ft.', '5000', 'ft2'],
    ['5000 FT^2', '5000', 'ft2'],
    ['100 m²', '100', 'm2'],
    ['16 fl. oz.', '16', 'fl oz'],
    ['16 fluid ounces', '16', 'fl oz'],
    ['4 oz (wt)', '4', 'oz wt'],
    ['4 dry ounces', '4', 'oz wt'],
    ['9 lb 6 oz', '9.375', 'lb'],
    ['1 gal 16 oz', '1.125', 'gal'],
    ['5\' 6"', '5.5', 'ft'],
    ['5 ft 6 in', '5.5', 'ft'],
    ['half a gallon', '0.5', 'gal'],
    ['un galón', '1', 'gal'],
    ['one gallon', '1', 'gal'],
    ['dos galones', '2', 'gal'],
    ['dos y medio galones', '2.5', 'gal'],
    ['2 galones y medio', '2.5', 'gal'],
    ['two and a half gallons', '2.5', 'gal'],
    ['un cuarto de galón', '0.25', 'gal'],
    ['tres cuartos de galón', '0.75', 'gal'],
    ['a quarter of a pint', '0.25', 'pt'],
    ['mil pies cuadrados', '1000', 'ft2'],
    ['diez onzas líquidas', '10', 'fl oz'],
    ['25 ft by 10 ft', '250', 'ft2'],
    ['25 pies por 10 pies', '250', 'ft2'],
    ['20 x 17 ft', '340', 'ft2'],
    ['3.5 × 2 m', '7', 'm2'],
    ['34 s', '34', 's'],
    ['1:30', '90', 's'],
    ['1 min 30 s', '1.5', 'min'],
    ['72 °F', '72', 'F'],
    ['-5 ºC', '-5', 'C'],
    ['0 C', '0', 'C'],
    ['0.4 gal/min', '0.4', 'gal/min'],
    ['0.4 GPM', '0.4', 'gal/min'],
    ['3 miles per hour', '3', 'mph'],
    ['88 ft per minute', '88', 'ft/min'],
    ['30 psi', '30', 'psi'],
    ['50 %', '50', '%'],
    ['\u200f2 gal\u200e', '2', 'gal'],
    ['2 L.', '2', 'L'],
  ])('%j', (text, value, unit) => {
    expect(sure(parseQuantity(text, { expect: ANY }))).toEqual({ value, unit })
  })

  test.each([
    ['2 galones', '2', 'gal'],
    ['½ galón', '0.5', 'gal'],
    ['media libra', '0.5', 'lb'],
    ['3 libras', '3', 'lb'],
    ['8 onzas líquidas', '8', 'fl oz'],
    ['8 onzas de peso', '8', 'oz wt'],
    ['5 mil pies cuadrados', '5000', 'ft2'],
    ['2 cuartos', '2', 'qt'],
    ['3 pintas', '3', 'pt'],
    ['2 cucharadas', '2', 'tbsp'],
    ['2 cucharaditas', '2', 'tsp'],
    ['10 gramos', '10', 'g'],
    ['20 pies', '20', 'ft'],
    ['20 pulgadas', '20', 'in'],
    ['1 hectárea', '1', 'ha'],
    ['2,5 litros', '2.5', 'L'],
  ])('in Spanish: %j', (text, value, unit) => {
    expect(sure(parseQuantity(text, { expect: ANY, locale: 'es' }))).toEqual({ value, unit })
  })

  test('a bare number takes the unit that the caller stands for', () => {
    expect(sure(parseQuantity('2', { expect: 'volume', bareUnit: 'gal' }))).toEqual({
      value: '2',
      unit: 'gal',
    })
  })

  test('a bare ounce takes the kind that the form of the product says', () => {
    expect(sure(parseQuantity('5 oz', { expect: ['mass', 'volume'], ounce: 'oz wt' })).unit).toBe('oz wt')
    expect(sure(parseQuantity('5 onzas', { expect: ['mass', 'volume'], ounce: 'fl oz' })).unit).toBe('fl oz')
  })

  test('a limit stops the absurd, and is itself allowed', () => {
    const options = { expect: 'volume', limit: { value: '100', unit: 'gal' } } as const
    expect(sure(parseQuantity('400 qt', options))).toEqual({ value: '400', unit: 'qt' })
    expect(problemOf(parseQuantity('10,000 gal', options))).toEqual({
      kind: 'absurd',
      text: '10,000 gal',
      limit: '100 gal',
    })
  })

  test('zero is an amount only where the caller says so', () => {
    expect(sure(parseQuantity('0 gal', { expect: 'volume', allowZero: true })).value).toBe('0')
  })
})

const AREA = { value: '1', unit: '1000 ft2' }
const ACRE = { value: '1', unit: 'acre' }

describe('a rate as labels and people write it', () => {
  test.each([
    ['0.113 oz wt/1000 ft2', { kind: 'area', value: '0.113', unit: 'oz wt', of: 'product', per: AREA }],
    [
      '0.113 oz wt / 1,000 sq. ft.',
      { kind: 'area', value: '0.113', unit: 'oz wt', of: 'product', per: AREA },
    ],
    ['16 fl oz per 1000 sq ft', { kind: 'area', value: '16', unit: 'fl oz', of: 'product', per: AREA }],
    ['2 gal per thousand', { kind: 'area', value: '2', unit: 'gal', of: 'product', per: AREA }],
    ['1 lb/1000', { kind: 'area', value: '1', unit: 'lb', of: 'product', per: AREA }],
    ['3 pt/acre', { kind: 'area', value: '3', unit: 'pt', of: 'product', per: ACRE }],
    ['3 pt per acre', { kind: 'area', value: '3', unit: 'pt', of: 'product', per: ACRE }],
    ['3 pt/A', { kind: 'area', value: '3', unit: 'pt', of: 'product', per: ACRE }],
    ['1/2 gal/acre', { kind: 'area', value: '0.5', unit: 'gal', of: 'product', per: ACRE }],
    ['1 1/2 pt/acre', { kind: 'area', value: '1.5', unit: 'pt', of: 'product', per: ACRE }],
    ['25 GPA', { kind: 'area', value: '25', unit: 'gal', of: 'product', per: ACRE }],
    [
      '50 lb per 6000 ft2',
      { kind: 'area', value: '50', unit: 'lb', of: 'product', per: { value: '6000', unit: 'ft2' } },
    ],
    ['2 lb ai/acre', { kind: 'area', value: '2', unit: 'lb', of: 'ai', per: ACRE }],
    ['2 lb a.i. per A', { kind: 'area', value: '2', unit: 'lb', of: 'ai', per: ACRE }],
    ['2 lb of active ingredient per acre', { kind: 'area', value: '2', unit: 'lb', of: 'ai', per: ACRE }],
    ['1.5 lb ae/acre', { kind: 'area', value: '1.5', unit: 'lb', of: 'ae', per: ACRE }],
    ['3 pt product/acre', { kind: 'area', value: '3', unit: 'pt', of: 'product', per: ACRE }],
    ['1 lb 4 oz/acre', { kind: 'area', value: '1.25', unit: 'lb', of: 'product', per: ACRE }],
    ['2,5 L/ha', { kind: 'area', value: '2.5', unit: 'L', of: 'product', per: { value: '1', unit: 'ha' } }],
    [
      '30 g/100 m²',
      { kind: 'area', value: '30', unit: 'g', of: 'product', per: { value: '1', unit: '100 m2' } },
    ],
    [
      '2 lb/100 gal',
      { kind: 'volume', value: '2', unit: 'lb', of: 'product', per: { value: '100', unit: 'gal' } },
    ],
    ['10 mL/L', { kind: 'volume', value: '10', unit: 'mL', of: 'product', per: { value: '1', unit: 'L' } }],
    ['0.25 % v/v', { kind: 'share', value: '0.25', unit: '%', of: 'product', basis: 'v/v' }],
    ['1/4% by volume', { kind: 'share', value: '0.25', unit: '%', of: 'product', basis: 'v/v' }],
    ['1 percent w/w', { kind: 'share', value: '1', unit: '%', of: 'product', basis: 'w/w' }],
    ['2 libras por mil pies cuadrados', { kind: 'area', value: '2', unit: 'lb', of: 'product', per: AREA }],
    ['2 lb i.a. por acre', { kind: 'area', value: '2', unit: 'lb', of: 'ai', per: ACRE }],
    ['3 pintas por cada acre', { kind: 'area', value: '3', unit: 'pt', of: 'product', per: ACRE }],
  ])('%j', (text, expected) => {
    expect(sure(parseRate(text))).toEqual(expected)
  })

  test('the form of the product decides what a bare ounce and a bare percentage are', () => {
    expect(sure(parseRate('3 oz/acre', { ounce: 'fl oz' })).unit).toBe('fl oz')
    expect(sure(parseRate('0.5 % solution', { percent: 'v/v' }))).toMatchObject({ basis: 'v/v' })
  })

  test.each([
    ['fl oz/1000 ft2', { kind: 'area', unit: 'fl oz', of: 'product', per: AREA }],
    ['lb ai/acre', { kind: 'area', unit: 'lb', of: 'ai', per: ACRE }],
    ['gal/100 gal', { kind: 'volume', unit: 'gal', of: 'product', per: { value: '100', unit: 'gal' } }],
    ['% v/v', { kind: 'share', unit: '%', of: 'product', basis: 'v/v' }],
  ])('a form without a number: %j', (text, expected) => {
    expect(sure(parseRateForm(text))).toEqual(expected)
  })

  test('a form that comes with a number is not a form', () => {
    expect(problemOf(parseRateForm('3 pt/acre'))).toMatchObject({ kind: 'trailing', rest: '3' })
  })
})

describe('outputs, strengths, densities, fills', () => {
  test.each([
    ['1 gal/1000 ft2', { value: '1', unit: 'gal', per: AREA }],
    ['25 gal/acre', { value: '25', unit: 'gal', per: ACRE }],
    ['25 GPA', { value: '25', unit: 'gal', per: ACRE }],
    ['1 gal per 250 ft2', { value: '1', unit: 'gal', per: { value: '250', unit: 'ft2' } }],
    ['400 L/ha', { value: '400', unit: 'L', per: { value: '1', unit: 'ha' } }],
  ])('output %j', (text, expected) => {
    expect(sure(parseOutput(text))).toEqual(expected)
  })

  test('an output above the limit is absurd, in whatever unit it comes', () => {
    const limit = { value: '10', unit: 'gal', per: { value: '1', unit: '1000 ft2' } } as const
    expect(sure(parseOutput('435 gal/acre', { limit })).value).toBe('435')
    expect(problemOf(parseOutput('436 gal/acre', { limit })).kind).toBe('absurd')
  })

  test.each([
    [
      '6.7 lb ai/gal',
      { kind: 'mass-per-volume', value: '6.7', unit: 'lb', of: 'ai', per: { value: '1', unit: 'gal' } },
    ],
    [
      '480 g/L',
      { kind: 'mass-per-volume', value: '480', unit: 'g', of: 'ai', per: { value: '1', unit: 'L' } },
    ],
    [
      '3 lb ae per gallon',
      { kind: 'mass-per-volume', value: '3', unit: 'lb', of: 'ae', per: { value: '1', unit: 'gal' } },
    ],
    ['80 % ai', { kind: 'percent', value: '80', unit: '%', of: 'ai' }],
    ['41% ae', { kind: 'percent', value: '41', unit: '%', of: 'ae' }],
    ['80 %', { kind: 'percent', value: '80', unit: '%', of: 'ai' }],
  ])('strength %j', (text, expected) => {
    expect(sure(parseStrength(text))).toEqual(expected)
  })

  test('density', () => {
    expect(sure(parseDensity('8.34 lb/gal'))).toEqual({
      value: '8.34',
      unit: 'lb',
      per: { value: '1', unit: 'gal' },
    })
    expect(problemOf(parseDensity('8.34 lb ai/gal')).kind).toBe('wrong-dimension')
  })

  test.each([
    ['1/2', { kind: 'share', share: '0.5' }],
    ['¾ tank', { kind: 'share', share: '0.75' }],
    ['half', { kind: 'share', share: '0.5' }],
    ['medio tanque', { kind: 'share', share: '0.5' }],
    ['50 %', { kind: 'share', share: '0.5' }],
    ['full', { kind: 'share', share: '1' }],
    ['lleno', { kind: 'share', share: '1' }],
    ['2 gal', { kind: 'volume', volume: { value: '2', unit: 'gal' } }],
    ['half a gallon', { kind: 'volume', volume: { value: '0.5', unit: 'gal' } }],
  ])('fill %j', (text, expected) => {
    expect(sure(parseFill(text))).toEqual(expected)
  })

  test.each([
    ['2', 'no-unit'],
    ['0.5', 'no-unit'],
    ['5/4', 'over-full'],
    ['120 %', 'over-full'],
    ['0 %', 'zero'],
  ])('fill %j is a problem', (text, kind) => {
    expect(problemOf(parseFill(text)).kind).toBe(kind)
  })
})
