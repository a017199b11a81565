import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { textWidth } from '#src/pictures/text/fonts.ts'
import { wrapText } from '#src/pictures/text/wrap.ts'

const setting = { size: 20, width: 200 }

describe('setting text', () => {
  // Advance widths of DejaVu Sans 2.37 at 2,048 units to the em, read with the font's own tables: space 651, A 1401.
  test.each([
    [' ', 651],
    ['A', 1401],
    ['A A', 1401 + 651 + 1401],
  ])('"%s" is as wide as the typeface says', (text, units) => {
    expect(textWidth(text, 2048)).toBe(units)
  })

  test('bold is wider, and a character that the typeface lacks still takes room', () => {
    expect(textWidth('lawn', 20, 'bold')).toBeGreaterThan(textWidth('lawn', 20))
    expect(textWidth('🌱', 20)).toBeGreaterThan(0)
  })

  test('every line fits and no letter is lost', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 200 }), (text) => {
        const lines = wrapText(text, setting)
        for (const line of lines) {
          if ([...line].length > 1) expect(textWidth(line, setting.size)).toBeLessThanOrEqual(setting.width)
        }
        expect(lines.join('').replace(/\s/g, '')).toBe(text.replace(/\s/g, ''))
      }),
    )
  })

  test('too many lines end in an ellipsis', () => {
    const lines = wrapText('one two three four five six seven eight nine ten eleven twelve', {
      ...setting,
      maxLines: 2,
    })
    expect(lines).toHaveLength(2)
    expect(lines[1]).toMatch(/…$/)
    expect(textWidth(lines[1] ?? '', setting.size)).toBeLessThanOrEqual(setting.width)
  })
})
