import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { cutText, lengthOf, shownCost } from '#src/messengers/discord/cut.ts'
import { escapeText, flattenTyped } from '#src/messengers/discord/escape.ts'
import { costOf, fitLines, pageLines, shareRoom } from '#src/messengers/discord/fit.ts'
import { unescaped } from './markup.ts'

describe('escaped text', () => {
  test.each([
    ['*bold* _it_ ~~no~~', '\\*bold\\* \\_it\\_ \\~\\~no\\~\\~'],
    ['# heading', '\\# heading'],
    ['-# small', '\\-# small'],
    ['- item', '\\- item'],
    ['1. item', '1\\. item'],
    ['2.5 gal', '2.5 gal'],
    ['> quote', '\\> quote'],
    ['wind > 10 mph', 'wind > 10 mph'],
    ['[here](https://demo.example)', '\\[here](https\\://demo.example)'],
    ['<@123> <t:1:R> </mix:1>', '\\<@123> \\<t\\:1:R> \\</mix:1>'],
    ['a ratio of 1:2', 'a ratio of 1:2'],
    [':smile: at 10:30', '\\:smile: at 10:30'],
    ['@everyone', '@\u200beveryone'],
    ['crew@demo.example', 'crew@demo.example'],
    ['discord.gg/abc', 'discord.gg\\/abc'],
  ])('%s', (plain, escaped) => {
    expect(escapeText(plain)).toBe(escaped)
    expect(unescaped(escapeText(plain))).toEqual([])
  })

  test('never formats, whatever it holds', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'\\`*_~|<>#+-.1[]()@:/ae \n\t') }), (plain) => {
        expect(unescaped(escapeText(plain))).toEqual([])
      }),
      { numRuns: 2000 },
    )
  })

  test('typed lines cannot pass themselves off as lines of an answer', () => {
    expect(flattenTyped('north lawn\n\n✓ Answer: 9 gal')).toBe('north lawn / ✓ Answer: 9 gal')
  })
})

describe('cut text', () => {
  test.each([
    ['stays whole when it fits', 'Two gallons.', 20, 'Two gallons.'],
    ['ends after a sentence', 'Fill to two gallons. Then add the product.', 30, 'Fill to two gallons. …'],
    ['ends after a word', 'Fill the tank to two gallons and stir', 20, 'Fill the tank to…'],
    ['ends between whole characters', '👩‍🌾👩‍🌾👩‍🌾', 12, '👩‍🌾👩‍🌾…'],
    [
      'does not give away more than half for a sentence',
      'No. abcdefghijklmnopqrstuvwxyz',
      20,
      'No. abcdefghijklmno…',
    ],
    ['is empty without room', 'Two gallons.', 0, ''],
  ])('%s', (_, text, most, cut) => {
    expect(cutText(text, most)).toBe(cut)
  })

  test('keeps any limit in any measure, and what it keeps is the beginning', () => {
    const text = fc.oneof(fc.string({ unit: 'grapheme' }), fc.lorem({ mode: 'sentences', maxCount: 5 }))
    fc.assert(
      fc.property(
        text,
        fc.integer({ min: 0, max: 80 }),
        fc.constantFrom(lengthOf, shownCost),
        (whole, most, measure) => {
          const cut = cutText(whole, most, measure)
          expect(measure(cut)).toBeLessThanOrEqual(most)
          expect(whole.startsWith(cut.replace(/ ?…$/, '')) || cut === whole).toBe(true)
        },
      ),
      { numRuns: 500 },
    )
  })
})

describe('room for lines', () => {
  test('lines that do not fit are counted', () => {
    const lines = ['a'.repeat(50), 'b'.repeat(50), 'c'.repeat(50)]
    expect(fitLines(lines, 120)).toEqual({ lines: lines.slice(0, 2), missing: 1 })
    expect(fitLines(lines, 1000)).toEqual({ lines, missing: 0 })
  })

  test.each([
    ['both fit', 1000, 300, 400, { safety: 300, answer: 400 }],
    ['a long answer leaves safety whole', 1000, 300, 5000, { safety: 300, answer: 700 }],
    ['long safety leaves a short answer whole', 1000, 5000, 200, { safety: 800, answer: 200 }],
    ['two long ones share', 1000, 5000, 5000, { safety: 500, answer: 500 }],
  ])('%s', (_, room, safety, answer, shares) => {
    expect(shareRoom(room, safety, answer)).toEqual(shares)
  })

  test('pages lose nothing and each keeps its limit', () => {
    fc.assert(
      fc.property(fc.array(fc.lorem({ mode: 'sentences', maxCount: 6 }), { maxLength: 20 }), (lines) => {
        const pages = pageLines(lines, 300)
        for (const page of pages) expect(costOf(page)).toBeLessThanOrEqual(300)
        const letters = (all: readonly string[]) => all.join('').replace(/[\s…]/g, '')
        expect(letters(pages.flat())).toBe(letters(lines))
      }),
    )
  })
})
