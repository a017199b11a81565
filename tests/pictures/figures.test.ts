import { describe, expect, test } from 'vitest'
import { figures } from '#src/pictures/figures/index.ts'
import { FIGURE_SIDE, penFor } from '#src/pictures/figures/pen.ts'
import { figureWordsId, hasFigure, placeFigure } from '#src/pictures/figures/place.ts'
import { writeSvg } from '#src/pictures/svg.ts'
import { type ThemeName, themes } from '#src/pictures/theme.ts'
import { loadWords } from '#src/words/load.ts'
import { boundsOf } from './bounds.ts'
import { characterStates } from './characters.ts'
import { readSvg } from './read-svg.ts'

const words = loadWords()
const all = Object.entries(figures).flatMap(([character, set]) =>
  Object.keys(set).map((state) => ({ character, state })),
)
const names = Object.keys(themes) as ThemeName[]

describe('figures of the key', () => {
  test.each(characterStates())('%s has a figure of every state', (character, states) => {
    expect(Object.keys(figures[character] ?? {}).sort()).toEqual([...states].sort())
  })

  test('there are no figures of characters that the key does not have', () => {
    expect(Object.keys(figures).sort()).toEqual(
      characterStates()
        .map(([id]) => id)
        .sort(),
    )
  })

  test.each(all)('$character $state is told in words', (name) => {
    const text = words.source('en', figureWordsId(name))
    expect(text).toMatch(/^[A-Z].{7,}/)
    expect(text?.length).toBeLessThanOrEqual(120)
  })

  test('no two states of a character are told in the same words', () => {
    for (const [character, set] of Object.entries(figures)) {
      const texts = Object.keys(set).map((state) => words.source('en', figureWordsId({ character, state })))
      expect(new Set(texts).size, character).toBe(texts.length)
    }
  })

  test('no words describe a figure that does not exist', () => {
    const described = words.ids('en').filter((id) => id.startsWith('figure.'))
    expect(described).toEqual(all.map(figureWordsId).sort())
  })

  // A stroke that runs out of the picture may lap over its edge by its own half width.
  test.each(all)('$character $state stays in its square', ({ character, state }) => {
    const box = boundsOf(figures[character]?.[state]?.(penFor(themes.light)) ?? [])
    expect(Math.min(box.left, box.top)).toBeGreaterThanOrEqual(-4)
    expect(Math.max(box.right, box.bottom)).toBeLessThanOrEqual(FIGURE_SIDE + 4)
    expect(Math.max(box.right - box.left, box.bottom - box.top)).toBeGreaterThan(FIGURE_SIDE * 0.35)
  })

  test.each(names)('every figure is well-formed and the same each time in %s', (theme) => {
    for (const name of all) {
      const svg = writeSvg(placeFigure(name, themes[theme], [0, 0], 160))
      expect(readSvg(svg).elements.length).toBeGreaterThan(1)
      expect(writeSvg(placeFigure(name, themes[theme], [0, 0], 160))).toBe(svg)
    }
  })

  test.each([
    { character: 'seedhead', state: 'hidden-treasure' },
    { character: 'no-such', state: 'round' },
    { character: 'constructor', state: 'name' },
  ])('there is no figure of $character $state', (name) => {
    expect(hasFigure(name)).toBe(false)
    expect(() => placeFigure(name, themes.light, [0, 0], 160)).toThrow(/there is no figure/)
  })
})
