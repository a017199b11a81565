import { readFileSync } from 'node:fs'
import { IntlMessageFormat } from 'intl-messageformat'
import { describe, expect, test } from 'vitest'
import { parseFill, parseQuantity } from '#src/quantity/parse.ts'
import { parseOutput, parseRate, parseRateForm, parseStrength } from '#src/quantity/parse-rate.ts'
import type { QuantityProblem } from '#src/quantity/problem.ts'
import { quantityMessage } from '#src/quantity/problem.ts'
import { problemOf } from './read.ts'

const words: Record<string, string> = JSON.parse(
  readFileSync(new URL('../../data/words/en/quantity.json', import.meta.url), 'utf8'),
)

function sentence(problem: QuantityProblem): string {
  const { id, parameters } = quantityMessage(problem)
  return String(new IntlMessageFormat(words[id] ?? '', 'en').format(parameters))
}

const volumeProblem = (text: string, locale: 'en' | 'es' = 'en') =>
  problemOf(parseQuantity(text, { expect: 'volume', locale }))

describe('what cannot be read says so in one clear sentence', () => {
  test.each([
    ['', 'Nothing typed yet. Give a volume, such as 2 gal.'],
    ['   ', 'Nothing typed yet. Give a volume, such as 2 gal.'],
    ['x'.repeat(500), 'Too long: at most 80 characters. Give one number and its unit.'],
    [`2 gal ${'🌱'.repeat(500)}`, 'Too long: at most 80 characters. Give one number and its unit.'],
    ['NaN', 'No number at the start of “NaN”. Give a volume, such as 2 gal.'],
    ['Infinity gal', 'No number at the start of “Infinity gal”. Give a volume, such as 2 gal.'],
    ['∞ gal', 'No number at the start of “∞ gal”. Give a volume, such as 2 gal.'],
    ['some gal', 'No number at the start of “some gal”. Give a volume, such as 2 gal.'],
    ['🌱 gal', 'No number at the start of “🌱 gal”. Give a volume, such as 2 gal.'],
    ['2 🌱', '“🌱” is not a unit known here.'],
    ['2 galons', '“galons” is not a unit known here. Did you mean gal?'],
    ['1e3 gal', '“1e3 gal” is not a number this can read. Write it like 2, 0.5, 1/2 or 1 1/2.'],
    ['1.2.3 gal', '“1.2.3” is not a number this can read. Write it like 2, 0.5, 1/2 or 1 1/2.'],
    ['1/0 gal', '“1/0 gal” is not a number this can read. Write it like 2, 0.5, 1/2 or 1 1/2.'],
    ['10 000 gal', '“10 000 gal” is not a number this can read. Write it like 2, 0.5, 1/2 or 1 1/2.'],
    [`${'9'.repeat(26)} gal`, `“${'9'.repeat(26)}” has more digits than any scale shows. Use fewer.`],
    ['-2 gal', '“-2 gal” is below zero. Give an amount above zero.'],
    ['−2 gal', '“-2 gal” is below zero. Give an amount above zero.'],
    ['0 gal', '“0 gal” is zero. Give an amount above zero.'],
    ['1-2 gal', '“1-2 gal” is two numbers. Give one number.'],
    ['1 to 2 gal', '“1 to 2 gal” is two numbers. Give one number.'],
    ['2', '“2” has no unit. Give a volume, such as 2 gal.'],
    ['2 acres', '“2 acres” measures something else. Give a volume, such as 2 gal.'],
    ['2 gal/acre', '“2 gal/acre” is an amount per something. Give a volume, such as 2 gal.'],
    ['5 oz', '5 oz by weight or by volume? Write oz wt for a dry product, fl oz for a liquid.'],
    [
      '2 imp gal',
      '“2 imp gal” is British measure: that gallon is about 20 % larger. Give it in US gallons or in liters.',
    ],
    [
      '2 imperial gallons',
      '“2 imperial gallons” is British measure: that gallon is about 20 % larger. Give it in US gallons or in liters.',
    ],
    ['2 gal 3 lb', '“2 gal 3 lb” measures something else. Give a volume, such as 2 gal.'],
    ['2 gal 3 gal', '“2 gal 3 gal”: “3 gal” does not belong here. Leave it out.'],
  ])('%j', (text, expected) => {
    expect(sentence(volumeProblem(text))).toBe(expected)
  })

  test.each([
    ['1,500 L', '“1,500” can be read as 1500 or as 1.5. Type the one you mean just like that.'],
    ['1.500 L', '“1.500” can be read as 1500 or as 1.5. Type the one you mean just like that.'],
    ['1,125 L', '“1,125” can be read as 1125 or as 1.1250. Type the one you mean just like that.'],
  ])('in Spanish thousands and thousandths look the same: %j', (text, expected) => {
    expect(sentence(volumeProblem(text, 'es'))).toBe(expected)
  })

  test.each([
    ['5M ft2', '5,000 ft2'],
    ['5 M', '5,000 ft2'],
    ['5 MSF', '5,000 ft2'],
  ])('M for thousand is a question: %j', (text, suggestion) => {
    const problem = problemOf(parseQuantity(text, { expect: 'area' }))
    expect(problem).toMatchObject({ kind: 'm-for-thousand', suggestion })
  })

  test.each([
    ['3 pt/M', 'm-for-thousand'],
    ['3 pt', 'no-per'],
    ['3 pt/', 'no-per'],
    ['3 oz/acre', 'ambiguous-ounce'],
    ['0.5 %', 'ambiguous-percent'],
    ['150 % v/v', 'absurd'],
    ['3 pt/acre/year', 'trailing'],
    ['3 pt/0 acre', 'zero'],
    ['0 pt/acre', 'zero'],
    ['3-4 pt/acre', 'range'],
    ['1 ft2/acre', 'wrong-dimension'],
    ['80 % ai', 'wrong-dimension'],
    ['3 pt/imp gal', 'imperial'],
    ['pt/acre', 'no-number'],
    ['3 pt/5', 'no-unit'],
    ['3 pt/akre', 'unknown-unit'],
    ['0.25 % v/v weekly', 'trailing'],
    ['-3 pt/acre', 'negative'],
  ])('rate %j is %s', (text, kind) => {
    expect(problemOf(parseRate(text)).kind).toBe(kind)
  })

  test('what is shown of a long text is short', () => {
    const problem = volumeProblem(`2 ${'zq'.repeat(35)}`)
    expect(problem).toEqual({ kind: 'unknown-unit', text: `${'zq'.repeat(19)}z…`, suggestion: undefined })
  })

  test('no reader ever throws, whatever is typed', () => {
    const odd = [
      '\u0000',
      '\ud800',
      '١٢ gal',
      '2\u202e gal',
      "'; drop table",
      '%s %n',
      '{text}',
      '../..',
      '1//2 gal',
      '/ / /',
      '½½ gal',
      '- - 2',
      '٪',
      '1 1/2 1/2 gal',
      'per per per',
      '5 per',
      '%%%',
      '1,,2 gal',
      '..1 gal',
      'k',
      '5kk ft2',
    ]
    for (const text of odd) {
      for (const read of [parseRate, parseOutput, parseStrength, parseRateForm, parseFill])
        expect(typeof read(text).ok).toBe('boolean')
      expect(typeof parseQuantity(text, { expect: ['volume', 'area'] }).ok).toBe('boolean')
    }
  })
})
