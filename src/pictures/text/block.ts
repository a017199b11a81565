import { el, type SvgNode } from '../svg.ts'
import { FONT_FAMILY, type FontWeight } from './fonts.ts'
import { type Setting, wrapText } from './wrap.ts'

export interface LineStyle {
  readonly size: number
  readonly fill: string
  readonly weight?: FontWeight
  readonly anchor?: 'start' | 'middle' | 'end'
}

/** One line of text on its baseline. */
export function textLine(x: number, y: number, text: string, style: LineStyle): SvgNode {
  return el(
    'text',
    {
      x,
      y,
      'font-family': FONT_FAMILY,
      'font-size': style.size,
      fill: style.fill,
      ...(style.weight === 'bold' ? { 'font-weight': 'bold' } : {}),
      ...(style.anchor === undefined || style.anchor === 'start' ? {} : { 'text-anchor': style.anchor }),
    },
    [text],
  )
}

/** A wrapped text and how much room it took. */
export interface Block {
  readonly height: number
  readonly lines: readonly string[]
  /** Draws it with its top edge at `y`. */
  readonly at: (x: number, y: number) => SvgNode[]
}

/** Line height over letter size: roomy enough for a phone in the sun. */
const LEADING = 1.3

/** Sets a text in a column. */
export function textBlock(text: string, setting: Setting, style: Omit<LineStyle, 'size' | 'weight'>): Block {
  const lines = wrapText(text, setting)
  const step = setting.size * LEADING
  const lineStyle = {
    ...style,
    size: setting.size,
    ...(setting.weight === undefined ? {} : { weight: setting.weight }),
  }
  return {
    height: lines.length * step,
    lines,
    at: (x, y) => lines.map((line, row) => textLine(x, y + row * step + setting.size, line, lineStyle)),
  }
}
