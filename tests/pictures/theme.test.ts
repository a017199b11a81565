import { describe, expect, test } from 'vitest'
import { hues } from '#src/pictures/figures/hues.ts'
import { penFor } from '#src/pictures/figures/pen.ts'
import { contrastRatio, type ThemeName, themes } from '#src/pictures/theme.ts'

const names = Object.keys(themes) as ThemeName[]

describe('tones', () => {
  test.each([
    ['#000000', '#ffffff', 21, 'WCAG 2.2: the ratio runs from 1 to 21'],
    ['#ffffff', '#ffffff', 1, 'WCAG 2.2: the ratio runs from 1 to 21'],
  ])('%s on %s has a contrast of %d (%s)', (one, other, ratio) => {
    expect(contrastRatio(one, other)).toBeCloseTo(ratio, 10)
  })

  // 7:1 is the enhanced contrast for text. Source: WCAG 2.2, success criterion 1.4.6.
  test.each(names)('ink and lesser text stand out on paper by 7 to 1 in %s', (name) => {
    const theme = themes[name]
    expect(contrastRatio(theme.ink, theme.paper)).toBeGreaterThanOrEqual(7)
    expect(contrastRatio(theme.quiet, theme.paper)).toBeGreaterThanOrEqual(7)
  })

  // 3:1 is the least for graphics. Source: WCAG 2.2, success criterion 1.4.11.
  test.each(names)('ink stands out on shaded surfaces by 3 to 1 in %s', (name) => {
    expect(contrastRatio(themes[name].ink, themes[name].shade)).toBeGreaterThanOrEqual(3)
  })

  test.each(Object.keys(hues) as (keyof typeof hues)[])('marks on %s stand out by 3 to 1', (hue) => {
    for (const name of names) {
      const mark = penFor(themes[name])
        .over(hue)
        .stroke([
          [0, 0],
          [9, 9],
        ])
      expect(contrastRatio(String(mark.attributes.stroke), hues[hue])).toBeGreaterThanOrEqual(3)
    }
  })
})
