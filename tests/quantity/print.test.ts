import { describe, expect, test } from 'vitest'
import { printNumber, printOutput, printQuantity, printRate, printStrength } from '#src/quantity/print.ts'
import { rateUnitText, sayOutput, sayRate, sayStrength } from '#src/quantity/said.ts'
import { output, rate, strength } from './read.ts'

describe('numbers for people', () => {
  test.each([
    ['0.226', '0.226', '0.226'],
    ['18500', '18,500', '18\u202f500'],
    ['130680', '130,680', '130\u202f680'],
    ['1.10192837465', '1.102', '1.1020'],
    ['12.345', '12.35', '12.35'],
    ['0.0045', '0.0045', '0.0045'],
    ['1234567.8', '1,234,568', '1\u202f234\u202f568'],
    ['0', '0', '0'],
    ['-5.5', '-5.5', '-5.5'],
    ['99.999', '100', '100'],
  ])('%s is %s in English and %s in Spanish', (value, english, spanish) => {
    expect(printNumber(value)).toBe(english)
    expect(printNumber(value, { locale: 'es' })).toBe(spanish)
  })

  test('rounding down never shows more than there is', () => {
    expect(printNumber('0.99999', { rounding: 'down' })).toBe('0.9999')
  })
})

test.each([
  ['0.113 oz wt/1000 ft2', '0.113 oz wt/1000 ft²', '0.113 oz peso/1000 pies²'],
  ['3 pt/A', '3 pt/acre', '3 pt/acre'],
  ['50 lb per 6000 ft2', '50 lb/6,000 ft²', '50 lb/6\u202f000 pies²'],
  ['2 lb ai/acre', '2 lb ai/acre', '2 lb i.a./acre'],
  ['0.25 % v/v', '0.25 % v/v', '0.25 % v/v'],
  ['2 lb/100 gal', '2 lb/100 gal', '2 lb/100 gal'],
])('rate %s', (text, english, spanish) => {
  expect(printRate(rate(text))).toBe(english)
  expect(printRate(rate(text), { locale: 'es' })).toBe(spanish)
})

test('areas counted in thousands are printed in square feet', () => {
  expect(printQuantity({ value: '4.5', unit: '1000 ft2' })).toBe('4,500 ft²')
})

test('outputs, strengths and temperatures', () => {
  expect(printOutput(output('25 GPA'))).toBe('25 gal/acre')
  expect(printStrength(strength('80 %'))).toBe('80 % ai')
  expect(printStrength(strength('6.7 lb ai/gal'))).toBe('6.7 lb ai/gal')
  expect(printQuantity({ value: '72', unit: 'F' })).toBe('72 °F')
})

test('facts carry the unit as text that can be read back', () => {
  expect(sayRate(rate('50 lb per 6000 ft2'))).toEqual({ value: '50', unit: 'lb/6000 ft2' })
  expect(rateUnitText(rate('2 lb ai/acre'))).toBe('lb ai/acre')
  expect(sayRate(rate('0.25 % v/v')).unit).toBe('% v/v')
  expect(sayOutput(output('1 gal/1000 ft2'))).toEqual({ value: '1', unit: 'gal/1000 ft2' })
  expect(sayStrength(strength('41 % ae'))).toEqual({ value: '41', unit: '% ae' })
})
