import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { remember } from '#src/memory/remember.ts'
import { type FontMetrics, readFont } from './font-metrics.ts'

const require = createRequire(import.meta.url)

/** The one typeface of all pictures; it comes with the program, so a picture is the same on every machine. */
export const FONT_FAMILY = 'DejaVu Sans'

/** Paths of the typeface's files. */
export function fontFiles(): readonly string[] {
  return [fontFile('plain'), fontFile('bold')]
}

export type FontWeight = 'plain' | 'bold'

function fontFile(weight: FontWeight): string {
  return require.resolve(`dejavu-fonts-ttf/ttf/DejaVuSans${weight === 'bold' ? '-Bold' : ''}.ttf`)
}

const known = new Map<FontWeight, FontMetrics>()

function metrics(weight: FontWeight): FontMetrics {
  const found = known.get(weight) ?? readFont(readFileSync(fontFile(weight)))
  known.set(weight, found)
  return found
}

/** How wide a line of text comes out, in the unit of `size`. */
export function textWidth(text: string, size: number, weight: FontWeight = 'plain'): number {
  return widthOfUnits(textUnits(text, weight), size, weight)
}

/** The same in the typeface's own whole units: of two texts side by side it is the sum. */
export function textUnits(text: string, weight: FontWeight): number {
  const font = metrics(weight)
  let units = 0
  for (const character of text) units += font.advance(character.codePointAt(0) ?? 0)
  return units
}

export function widthOfUnits(units: number, size: number, weight: FontWeight): number {
  return (units * size) / metrics(weight).unitsPerEm
}

/** How far letters reach above their line, as a part of their size. */
export function ascentOf(weight: FontWeight): number {
  const { ascent, unitsPerEm } = metrics(weight)
  return ascent / unitsPerEm
}

/** Characters whose answer is kept: all that a crew ever writes. */
const MOST_GLYPHS = 5000

/** Whether the typeface can show this character. */
export const hasGlyph = remember(
  (character: string): boolean => metrics('plain').has(character.codePointAt(0) ?? 0),
  MOST_GLYPHS,
)
