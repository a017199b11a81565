import { describe, expect, test } from 'vitest'
import { checkCeiling } from '#src/calculator/rate/ceilings.ts'
import { compareRates } from '#src/calculator/rate/compare.ts'
import { convertRate } from '#src/calculator/rate/convert.ts'
import type { Figures } from '#src/calculator/rate/figures.ts'
import { printRate } from '#src/quantity/print.ts'
import { density, form, output, rate, strength, sure } from '#tests/quantity/read.ts'

const convert = (from: string, to: string, figures: Figures = {}) =>
  printRate(sure(convertRate(rate(from), form(to), figures)).rate)

describe('any rate in any other form', () => {
  test.each<[string, string, Figures, string]>([
    ['3 pt/acre', 'fl oz/1000 ft2', {}, '1.102 fl oz/1000 ft²'],
    ['0.75 lb ai/acre', 'pt/acre', { strengths: [strength('6.7 lb ai/gal')] }, '0.8955 pt/acre'],
    ['1 lb/1000 ft2', 'lb/acre', {}, '43.56 lb/acre'],
    ['1 gal/1000 ft2', 'L/ha', {}, '407.5 L/ha'],
    ['1 % v/v', 'fl oz/gal', {}, '1.28 fl oz/gal'],
    ['1 % v/v', 'mL/L', {}, '10 mL/L'],
    ['2 qt/100 gal', '% v/v', {}, '0.5 % v/v'],
    ['1 fl oz/1000 ft2', 'fl oz/gal', { output: output('2 gal/1000 ft2') }, '0.5 fl oz/gal'],
    ['1 % v/v', 'fl oz/1000 ft2', { output: output('1 gal/1000 ft2') }, '1.28 fl oz/1000 ft²'],
    ['3 pt/acre', 'lb ai/acre', { strengths: [strength('8 lb ai/gal')] }, '3 lb ai/acre'],
    ['3.75 lb/acre', 'lb ai/acre', { strengths: [strength('80 % ai')] }, '3 lb ai/acre'],
    [
      '1 lb ai/acre',
      'lb ae/acre',
      { strengths: [strength('4 lb ai/gal'), strength('3 lb ae/gal')] },
      '0.75 lb ae/acre',
    ],
    ['1 pt/acre', 'lb/acre', { density: density('8 lb/gal') }, '1 lb/acre'],
    [
      '1 lb ai/acre',
      'gal/acre',
      { strengths: [strength('50 % ai')], density: density('10 lb/gal') },
      '0.2 gal/acre',
    ],
    ['1 % w/w', 'oz wt/gal', { mixDensity: density('8.34 lb/gal') }, '1.334 oz wt/gal'],
    [
      '1 % w/w',
      'oz wt/1000 ft2',
      { mixDensity: density('8.34 lb/gal'), output: output('2 gal/1000 ft2') },
      '2.669 oz wt/1000 ft²',
    ],
    [
      '1 oz wt/1000 ft2',
      '% w/w',
      { mixDensity: density('8 lb/gal'), output: output('1 gal/1000 ft2') },
      '0.7813 % w/w',
    ],
  ])('%s in %s', (from, to, figures, expected) => {
    expect(convert(from, to, figures)).toBe(expected)
  })

  test.each([
    ['1 lb ai/acre', 'pt/acre', 'strength-ai'],
    ['1 lb ae/acre', 'pt/acre', 'strength-ae'],
    ['1 pt/acre', 'lb ai/acre', 'strength-ai'],
    ['1 pt/acre', 'lb/acre', 'density'],
    ['1 pt/acre', 'fl oz/gal', 'output'],
    ['1 % w/w', 'lb/100 gal', 'mix-density'],
  ])('%s in %s asks for the figure it lacks', (from, to, need) => {
    expect(convertRate(rate(from), form(to))).toEqual({ ok: false, error: { kind: 'needs', need } })
  })

  test('of two strengths the one that spares the density is taken', () => {
    const strengths = [strength('50 % ai'), strength('5 lb ai/gal')]
    expect(convert('1 lb ai/acre', 'gal/acre', { strengths })).toBe('0.2 gal/acre')
  })

  test('ai by volume is no rate', () => {
    expect(convertRate(rate('1 pt/acre'), form('pt ai/acre'))).toEqual({
      ok: false,
      error: { kind: 'ai-by-volume' },
    })
  })

  test('the working names each figure that was used', () => {
    const figures = { output: output('1 gal/1000 ft2'), strengths: [strength('4 lb ai/gal')] }
    const { working } = sure(convertRate(rate('1 lb ai/acre'), form('fl oz/gal'), figures))
    expect(working.map(({ id }) => id)).toEqual([
      'rate.step.output',
      'rate.step.strength',
      'rate.step.result',
    ])
  })
})

describe('maxima as printed', () => {
  const pair = [rate('0.115 oz wt/1000 ft2'), rate('5 oz wt/acre')]

  test.each([
    ['0.115 oz wt/1000 ft2', 'within'],
    ['5 oz wt/acre', 'within'],
    ['0.1151 oz wt/1000 ft2', 'above'],
    ['5.001 oz wt/acre', 'above'],
  ])('%s is %s on the line of its own unit', (asked, verdict) => {
    expect(checkCeiling(rate(asked), pair).verdict).toBe(verdict)
  })

  test('a unit that is not printed goes by the more generous of a rounded pair', () => {
    expect(
      checkCeiling(rate('0.35 g/100 ft2'), [rate('0.12 oz wt/1000 ft2'), rate('5 oz wt/acre')]),
    ).toMatchObject({
      verdict: 'above',
    })
    expect(
      checkCeiling(rate('3.3 g/1000 ft2'), [rate('0.12 oz wt/1000 ft2'), rate('5 oz wt/acre')]),
    ).toMatchObject({
      verdict: 'within',
      decides: { value: '0.12' },
    })
  })

  test('a pair further apart than rounding is never passed over', () => {
    const torn = [rate('0.2 oz wt/1000 ft2'), rate('5 oz wt/acre')]
    expect(checkCeiling(rate('0.15 oz wt/1000 ft2'), torn).verdict).toBe('disagrees')
    expect(checkCeiling(rate('0.1 oz wt/1000 ft2'), torn).verdict).toBe('within')
  })

  test('what cannot be compared names what is missing', () => {
    expect(checkCeiling(rate('1 pt/acre'), [rate('1 lb ai/acre')])).toEqual({
      verdict: 'unknown',
      need: 'strength-ai',
    })
    expect(checkCeiling(rate('1 pt/acre'), [])).toEqual({ verdict: 'unknown', need: undefined })
  })
})

describe('two versions of a rate', () => {
  test.each([
    ['3 pt/acre', '3 pt/acre', 'same'],
    ['3 pt/acre', '48 fl oz/acre', 'same'],
    ['3 pt/acre', '3.5 pt/acre', 'changed'],
    ['0.113 oz wt/1000 ft2', '1.13 oz wt/1000 ft2', 'factor-of-ten'],
    ['1.1 oz wt/1000 ft2', '0.113 oz wt/1000 ft2', 'factor-of-ten'],
    ['0.5 pt/acre', '50 pt/acre', 'factor-of-ten'],
    ['3 pt/acre', '3 pt/1000 ft2', 'area-slip'],
    ['2 oz wt/acre', '2 lb/acre', 'ounce-slip'],
    ['1 pt/acre', '7 pt/acre', 'much'],
  ])('%s to %s: %s', (old, fresh, change) => {
    expect(sure(compareRates(rate(old), rate(fresh))).change).toBe(change)
  })

  test('the message tells both rates and the factor', () => {
    const { message, ratio } = sure(compareRates(rate('1 pt/acre'), rate('0.1 pt/acre')))
    expect(ratio).toBe('0.1')
    expect(message?.with).toEqual({
      old: { value: '1', unit: 'pt/acre' },
      fresh: { value: '0.1', unit: 'pt/acre' },
      factor: '10',
      way: 'less',
    })
  })

  test('rates that cannot be compared ask for what is missing', () => {
    expect(compareRates(rate('1 pt/acre'), rate('1 lb/acre'))).toEqual({
      ok: false,
      error: { kind: 'needs', need: 'density' },
    })
  })
})
