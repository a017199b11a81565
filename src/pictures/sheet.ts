import { figures } from './figures/index.ts'
import { FIGURE_SIDE, penFor } from './figures/pen.ts'
import { el, group, type SvgNode, svgRoot } from './svg.ts'
import { textBlock, textLine } from './text/block.ts'
import { type ThemeName, themes } from './theme.ts'

/** One square of a contact sheet. */
export interface SheetCell {
  readonly character: string
  readonly state: string
  readonly label: string
}

const SIDE = FIGURE_SIDE
const GAP = 12
const LABEL = 34

/** Figures at natural size in rows, each with its label beneath, in the tones of one theme. */
export function sheetSvg(title: string, cells: readonly SheetCell[], options: SheetOptions): SvgNode {
  const theme = themes[options.theme]
  const rows = Math.ceil(cells.length / options.columns)
  const width = GAP + options.columns * (SIDE + GAP)
  const height = 30 + rows * (SIDE + LABEL + GAP) + GAP
  return svgRoot(width, height, [
    el('rect', { width, height, fill: theme.paper }),
    textLine(GAP, 22, title, { size: 15, fill: theme.ink, weight: 'bold' }),
    ...cells.map((cell, at) => {
      const x = GAP + (at % options.columns) * (SIDE + GAP)
      const y = 34 + Math.floor(at / options.columns) * (SIDE + LABEL + GAP)
      return placedCell(cell, x, y, options.theme)
    }),
  ])
}

export interface SheetOptions {
  readonly theme: ThemeName
  readonly columns: number
}

function placedCell(cell: SheetCell, x: number, y: number, name: ThemeName): SvgNode {
  const theme = themes[name]
  const figure = figures[cell.character]?.[cell.state]
  if (figure === undefined) throw new Error(`Cannot draw ${cell.character} ${cell.state}: there is no figure`)
  const label = textBlock(cell.label, { size: 13, width: SIDE, maxLines: 2 }, { fill: theme.ink })
  return group(
    [
      el('rect', { width: SIDE, height: SIDE, fill: 'none', stroke: theme.shade, 'stroke-width': 1 }),
      ...figure(penFor(theme)),
      ...label.at(0, SIDE + 2),
    ],
    `translate(${x} ${y})`,
  )
}
