import { el, type SvgNode, svgNumber } from '../svg.ts'
import { contrastRatio, type Theme, themes } from '../theme.ts'
import { hatchLines, type Line, type Point, placesOn, toward } from './geometry.ts'
import { type Hue, hues } from './hues.ts'

/** Every figure is drawn in a square of this side. */
export const FIGURE_SIDE = 160

/**
 * Widths of strokes. `thin` is for what only helps to find the place, `bold` for the part that is asked about.
 */
export const weights = { hair: 1.6, thin: 2.4, mid: 3.6, bold: 6, heavy: 10 } as const
export type Weight = keyof typeof weights

/** What a surface is filled with: the page, a flat tone, full ink, nothing, or the true color of a plant part. */
export type Fill = 'none' | 'paper' | 'shade' | 'ink' | Hue

export interface HairsStyle {
  readonly count: number
  readonly length: number
  readonly from?: number
  readonly to?: number
  /** 1 and -1 are the two sides of the line, 0 both. */
  readonly side?: 1 | -1 | 0
  readonly lean?: number
  readonly weight?: Weight
}

/** Draws in the tones of one theme. Each stroke of the pen gives one element. */
export interface Pen {
  readonly stroke: (line: Line, weight?: Weight, dashes?: string) => SvgNode
  readonly shape: (outline: Line, fill?: Fill, weight?: Weight | 'no-line') => SvgNode
  readonly dot: (at: Point, radius: number) => SvgNode
  readonly ring: (at: Point, radius: number, fill?: Fill, weight?: Weight) => SvgNode
  readonly hatch: (outline: Line, degrees: number, gap: number, weight?: Weight) => SvgNode
  readonly hairs: (line: Line, style: HairsStyle) => SvgNode
  /** Small marks at the given points. */
  readonly dots: (points: Line, radius: number) => SvgNode
  /** A pen whose ink is easy to see on this color. */
  readonly over: (hue: Hue) => Pen
}

export type Figure = (pen: Pen) => readonly SvgNode[]

/** All states of one character, by their ids. */
export type FigureSet = Readonly<Record<string, Figure>>

export function pathOf(line: Line, closed = false): string {
  const points = line.map(([x, y]) => `${svgNumber(x)} ${svgNumber(y)}`)
  return `M${points.join('L')}${closed ? 'Z' : ''}`
}

export function penFor(theme: Theme): Pen {
  const round = { 'stroke-linecap': 'round', 'stroke-linejoin': 'round' }
  const lines = (all: readonly Line[], weight: Weight): SvgNode =>
    el('path', {
      d: all.map((line) => pathOf(line)).join(''),
      fill: 'none',
      stroke: theme.ink,
      'stroke-width': weights[weight],
      ...round,
    })
  return {
    stroke: (line, weight = 'mid', dashes) =>
      el('path', {
        d: pathOf(line),
        fill: 'none',
        stroke: theme.ink,
        'stroke-width': weights[weight],
        ...round,
        ...(dashes === undefined ? {} : { 'stroke-dasharray': dashes }),
      }),
    shape: (outline, fill = 'none', weight = 'mid') =>
      el('path', {
        d: pathOf(outline, true),
        fill: toneOf(fill, theme),
        ...(weight === 'no-line'
          ? {}
          : { stroke: outlineOn(fill, theme), 'stroke-width': weights[weight], 'stroke-linejoin': 'round' }),
      }),
    dot: ([cx, cy], r) => el('circle', { cx, cy, r, fill: theme.ink }),
    ring: ([cx, cy], r, fill = 'none', weight = 'mid') =>
      el('circle', {
        cx,
        cy,
        r,
        fill: toneOf(fill, theme),
        stroke: outlineOn(fill, theme),
        'stroke-width': weights[weight],
      }),
    hatch: (outline, degrees, gap, weight = 'hair') => lines(hatchLines(outline, degrees, gap, 3), weight),
    hairs: (line, style) => lines(hairLines(line, style), style.weight ?? 'hair'),
    dots: (points, r) =>
      el('path', {
        d: points.map(([x, y]) => `M${svgNumber(x)} ${svgNumber(y)}h0`).join(''),
        fill: 'none',
        stroke: theme.ink,
        'stroke-width': 2 * r,
        'stroke-linecap': 'round',
      }),
    over: (hue) => penFor({ ...theme, ink: inkOn(hue) }),
  }
}

/** The one of the two themes' inks that stands out more. */
function inkOn(hue: Hue): string {
  const [dark, light] = [themes.light.ink, themes.dark.ink]
  return contrastRatio(dark, hues[hue]) >= contrastRatio(light, hues[hue]) ? dark : light
}

/** Below this a line is lost on its own surface, as light ink is on white. */
const LOST = 1.6

/** Where the ink would be lost on the surface, the other ink parts it from its neighbors. */
function outlineOn(fill: Fill, theme: Theme): string {
  const tone = toneOf(fill, theme)
  if (fill === 'none' || fill === 'ink' || contrastRatio(theme.ink, tone) >= LOST) return theme.ink
  return theme.ink === themes.light.ink ? themes.dark.ink : themes.light.ink
}

function hairLines(line: Line, style: HairsStyle): readonly Line[] {
  const { count, length, from = 0, to = 1, side = 1, lean = 0 } = style
  const sides = side === 0 ? [1, -1] : [side]
  return placesOn(line, count, from, to).flatMap((place) =>
    sides.map((turn) => [place.point, toward(place.point, place.degrees + turn * (90 - lean), length)]),
  )
}

function toneOf(fill: Fill, theme: Theme): string {
  if (fill === 'none') return 'none'
  if (fill === 'paper' || fill === 'shade' || fill === 'ink') return theme[fill]
  return hues[fill]
}
