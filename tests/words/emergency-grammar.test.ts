import { describe, expect, test } from 'vitest'
import { buildEmergencyFinder } from '#src/words/emergency/find.ts'
import { type Meanings, readPattern } from '#src/words/emergency/pattern.ts'
import { plainWord, readClauses } from '#src/words/emergency/tokens.ts'
import { buildGuess, slips } from '#src/words/emergency/typos.ts'

const groups = new Map([['eye', ['eye', 'ojo']]])
const asMeanings = (text: string): Meanings[] =>
  text.split(' ').map((word) => (word === '#' ? null : new Set([word])))

describe('readPattern()', () => {
  test.each([
    { pattern: 'in my @eye', text: 'got it in my eye now', place: { from: 2, to: 5 } },
    { pattern: 'in mi|my @eye', text: 'in mi ojo', place: { from: 0, to: 3 } },
    { pattern: 'in my? @eye', text: 'in eye', place: { from: 0, to: 2 } },
    { pattern: 'got ..2 eye', text: 'got it in eye', place: { from: 0, to: 4 } },
    { pattern: 'got ..1 eye', text: 'got it in eye', place: null },
    { pattern: 'very* bad', text: 'very very very bad', place: { from: 0, to: 4 } },
    { pattern: 'so very*', text: 'so very very', place: { from: 0, to: 3 } },
    { pattern: '^ eye', text: 'my eye', place: null },
    { pattern: 'eye $', text: 'eye level', place: null },
    { pattern: 'eye level|$', text: 'my eye', place: { from: 1, to: 2 } },
    { pattern: 'sick !of|day', text: 'sick of rain', place: null },
    { pattern: 'sick !of|day', text: 'sick', place: { from: 0, to: 1 } },
    { pattern: 'poison control !$|app', text: 'poison control', place: null },
    { pattern: 'got ..3 eye', text: 'got # my eye', place: null },
  ])('"$pattern" in "$text"', ({ pattern, text, place }) => {
    expect(readPattern(pattern, groups).find(asMeanings(text))).toEqual(place)
  })

  test('says which part it cannot read, and which group does not exist', () => {
    expect(() => readPattern('got (it)', groups)).toThrow('Cannot read "(it)" in the pattern "got (it)"')
    expect(() => readPattern('got @nose', groups)).toThrow('Cannot find the group "@nose"')
  })
})

describe('readClauses()', () => {
  test.each([
    {
      text: 'Got it. In my eye!',
      words: [
        ['got', 'it'],
        ['in', 'my', 'eye'],
      ],
    },
    { text: '¿Náuseas? Sí…', words: [['nauseas'], ['si']] },
    { text: "can't, CAN’T", words: [['cant', 'cant']] },
    { text: '0.5 gal at 7:30', words: [['0', '5', 'gal', 'at', '7', '30']] },
    { text: 'bull’s-eye', words: [['bulls', 'eye']] },
    { text: ' .. ', words: [] },
  ])('"$text"', ({ text, words }) => {
    expect(readClauses(text).map((clause) => clause.map(({ word }) => word))).toEqual(words)
  })

  test.each([
    { typed: 'dizzzzy', plain: 'dizzy' },
    { typed: 'VÓMITO', plain: 'vomito' },
    { typed: 'Baño', plain: 'bano' },
  ])('plainWord($typed) is $plain', ({ typed, plain }) => {
    expect(plainWord(typed)).toBe(plain)
  })
})

describe('buildGuess()', () => {
  const guess = buildGuess(
    ['dizzy', 'swallow', 'swallowed', 'vomito', 'mareado', 'eye'],
    new Set(['marcado', 'shallow']),
  )
  test.each([
    { typed: 'dizzy', known: ['dizzy'] },
    { typed: 'dizy', known: ['dizzy'] },
    { typed: 'dzizy', known: ['dizzy'] },
    { typed: 'swallowd', known: ['swallowed'] },
    { typed: 'bomito', known: ['vomito'] },
    { typed: 'marcado', known: [] },
    { typed: 'dye', known: [] },
    { typed: 'shallow', known: [] },
    { typed: 'busy', known: [] },
  ])('"$typed" may stand for $known', ({ typed, known }) => {
    expect(guess(typed)).toEqual(known)
  })

  test.each([
    { a: 'dizzy', b: 'dizzy', count: 0 },
    { a: 'dizzy', b: 'dizy', count: 1 },
    { a: 'dizzy', b: 'dzizy', count: 1 },
    { a: 'fainted', b: 'painted', count: 1 },
    { a: '', b: 'abc', count: 3 },
  ])('$a and $b are $count slips apart', ({ a, b, count }) => {
    expect(slips(a, b)).toBe(count)
  })
})

test('the most serious kind is told first, and calm phrases stop a pattern', () => {
  const find = buildEmergencyFinder([
    {
      groups: { eye: ['eye'] },
      printed: ['if in @eye'],
      alarms: { exposure: ['in my? @eye'], illness: ['dizzy'], spill: ['spilled'] },
      calm: ['dizzy pattern'],
      ordinary: [],
    },
  ])
  expect(find('spilled it, dizzy, in my EYE')).toEqual({ kind: 'exposure', matched: 'in my EYE' })
  expect(find('spilled it. So dizzy')).toEqual({ kind: 'illness', matched: 'dizzy' })
  expect(find('dizzy pattern')).toBeNull()
  expect(find('If in eye: rinse')).toBeNull()
  expect(find('')).toBeNull()
})
