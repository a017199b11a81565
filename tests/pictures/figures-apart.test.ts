import { describe, expect, test } from 'vitest'
import { figures } from '#src/pictures/figures/index.ts'
import { type ThemeName, themes } from '#src/pictures/theme.ts'
import { differingShare, grayFigure } from './gray.ts'

/** Chosen by us: the share of pixels that must differ at the smallest size, without any color. */
const LEAST_APART = 0.015

describe.each(Object.keys(themes) as ThemeName[])('in %s, without color', (theme) => {
  test.each(Object.keys(figures))('no two states of %s look alike', async (character) => {
    const states = Object.keys(figures[character] ?? {})
    const gray = await Promise.all(
      states.map(async (state) => ({ state, pixels: await grayFigure({ character, state }, theme) })),
    )
    for (const [at, one] of gray.entries()) {
      for (const other of gray.slice(0, at)) {
        const share = differingShare(one.pixels, other.pixels)
        expect(share, `${one.state} and ${other.state}`).toBeGreaterThanOrEqual(LEAST_APART)
      }
    }
  })
})
