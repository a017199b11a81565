import { el, type SvgNode, svgRoot } from './svg.ts'
import { textBlock, textLine } from './text/block.ts'
import type { FontWeight } from './text/fonts.ts'
import type { Theme } from './theme.ts'

/** Width of a picture for a phone, in pixels; a phone shows it at about half of that. */
export const PAGE_WIDTH = 720
export const MARGIN = 28

/** Sizes of letters; the smallest is still about 11 points on a phone. */
export const sizes = { title: 36, big: 52, body: 27, small: 23 } as const

/** Something that takes the full width of its column and a known height. */
export interface Piece {
  readonly height: number
  readonly at: (x: number, y: number) => readonly SvgNode[]
}

export interface ParagraphStyle {
  readonly width?: number
  readonly size?: number
  readonly weight?: FontWeight
  readonly quiet?: boolean
  readonly maxLines?: number
  readonly align?: 'start' | 'middle'
}

export function paragraph(text: string, theme: Theme, style: ParagraphStyle = {}): Piece {
  const { width = PAGE_WIDTH - 2 * MARGIN, size = sizes.body, weight = 'plain', maxLines = 12 } = style
  const fill = style.quiet === true ? theme.quiet : theme.ink
  const block = textBlock(text, { size, width, weight, maxLines }, { fill, anchor: style.align ?? 'start' })
  const shift = style.align === 'middle' ? width / 2 : 0
  return { height: block.height, at: (x, y) => block.at(x + shift, y) }
}

export function space(height: number): Piece {
  return { height, at: () => [] }
}

/** A line across the column. */
export function rule(theme: Theme, width = PAGE_WIDTH - 2 * MARGIN): Piece {
  return {
    height: 25,
    at: (x, y) => [el('rect', { x, y: y + 11, width, height: 3, fill: theme.shade })],
  }
}

/** A text after a mark of its own: a bullet, a number. */
export function marked(
  mark: string,
  text: string,
  theme: Theme,
  width: number = PAGE_WIDTH - 2 * MARGIN,
): Piece {
  const indent = 42
  const body = paragraph(text, theme, { width: width - indent, maxLines: 6 })
  return {
    height: body.height + 6,
    at: (x, y) => [
      textLine(x, y + sizes.body, mark, { size: sizes.body, fill: theme.ink, weight: 'bold' }),
      ...body.at(x + indent, y),
    ],
  }
}

/** Pieces one below another. */
export function stack(pieces: readonly Piece[]): Piece {
  return {
    height: pieces.reduce((sum, piece) => sum + piece.height, 0),
    at: (x, y) => {
      let top = y
      return pieces.flatMap((piece) => {
        const nodes = piece.at(x, top)
        top += piece.height
        return nodes
      })
    },
  }
}

/** Pieces side by side in columns of one width; the row is as high as the highest. */
export function row(pieces: readonly Piece[], columnWidth: number, gap: number): Piece {
  return {
    height: Math.max(0, ...pieces.map((piece) => piece.height)),
    at: (x, y) => pieces.flatMap((piece, at) => piece.at(x + at * (columnWidth + gap), y)),
  }
}

/** The whole picture on its background. */
export function page(pieces: readonly Piece[], theme: Theme, width = PAGE_WIDTH): SvgNode {
  const body = stack(pieces)
  const height = Math.ceil(body.height + 2 * MARGIN)
  return svgRoot(width, height, [
    el('rect', { width, height, fill: theme.paper }),
    ...body.at(MARGIN, MARGIN),
  ])
}
