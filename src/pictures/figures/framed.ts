import type { Piece } from '../page.ts'
import { el } from '../svg.ts'
import type { Theme } from '../theme.ts'
import { type FigureName, placeFigure } from './place.ts'

const PADDING = 8

/** A figure in a frame as wide as its column. */
export function framedFigure(name: FigureName, theme: Theme, width: number): Piece {
  const inner = width - 2 * PADDING
  return {
    height: width,
    at: (x, y) => [
      el('rect', {
        x,
        y,
        width,
        height: width,
        rx: 10,
        fill: 'none',
        stroke: theme.shade,
        'stroke-width': 3,
      }),
      placeFigure(name, theme, [x + PADDING, y + PADDING], inner),
    ],
  }
}
