import { z } from 'zod'
import type { Drawing, PictureKind, Sketch } from '../kind.ts'
import { type Piece, paragraph, stack } from '../page.ts'
import { el, type SvgNode, svgRoot } from '../svg.ts'
import { textBlock, textLine } from '../text/block.ts'
import { textWidth } from '../text/fonts.ts'
import type { Theme } from '../theme.ts'
import { PictureWords } from '../words.ts'

const Cell = z.strictObject({
  amount: PictureWords,
  /** What goes in beside the product. */
  beside: PictureWords.exactOptional(),
})

const Row = z.strictObject({
  product: PictureWords,
  signal: PictureWords.exactOptional(),
  /** The rate line as the label prints it. */
  line: PictureWords,
  rate: PictureWords,
  label: PictureWords,
  notes: z.array(PictureWords).max(4),
  cells: z.array(Cell).min(1).max(3),
})

/** One page of a card for the truck, half a letter sheet or A5 on its side: what goes into each filling. */
export const TruckCard = z
  .strictObject({
    title: PictureWords,
    about: PictureWords,
    until: PictureWords,
    page: PictureWords,
    columns: z.array(PictureWords).min(1).max(3),
    rows: z.array(Row).max(4),
    leftOff: z.array(PictureWords).max(10),
    warnings: z.array(PictureWords).min(1).max(3),
  })
  .refine(({ rows, columns }) => rows.every(({ cells }) => cells.length === columns.length), {
    message: 'a row has one cell in each column',
  })
export type TruckCard = z.infer<typeof TruckCard>
type Row = z.infer<typeof Row>

/** A5 on its side, 210 by 148 mm; at 8.4 pixels a millimeter a letter of 24 prints at 8 points, an amount at 13. */
export const CARD_WIDTH = 1760
export const CARD_HEIGHT = 1240
const EDGE = 44
const INNER = CARD_WIDTH - 2 * EDGE
const LEFT = 940
const GAP = 28
const size = {
  title: 52,
  until: 34,
  product: 38,
  amount: 40,
  narrow: 33,
  body: 28,
  small: 26,
  fine: 24,
} as const

/** A sheet of paper has one theme: black on white, whatever the screen shows. */
const PAPER: Theme = { ink: '#000000', paper: '#ffffff', shade: '#000000', quiet: '#000000' }

function draw(data: TruckCard, sketch: Sketch): Drawing {
  const head = headOf(data, sketch)
  const foot = footOf(data, sketch)
  const body = stack([
    ...(data.rows.length === 0 ? [] : [columnsOf(data, sketch)]),
    ...data.rows.map((row) => rowOf(row, sketch)),
    ...data.leftOff.map((one) => text(sketch.words(one), { size: size.small, maxLines: 2 })),
  ])
  const svg = svgRoot(CARD_WIDTH, CARD_HEIGHT, [
    el('rect', { width: CARD_WIDTH, height: CARD_HEIGHT, fill: PAPER.paper }),
    ...head.at(EDGE, EDGE - 8),
    ...body.at(EDGE, EDGE + head.height),
    ...foot.at(EDGE, CARD_HEIGHT - EDGE - foot.height + 12),
  ])
  return { svg, widthPx: CARD_WIDTH, alt: describe(data, sketch) }
}

const text = (words: string, style: Parameters<typeof paragraph>[2] = {}): Piece =>
  paragraph(words, PAPER, { width: INNER, ...style })

function headOf(data: TruckCard, { words }: Sketch): Piece {
  const page = words(data.page)
  const width = INNER - textWidth(page, size.small) - GAP
  const title = text(words(data.title), { width, size: size.title, weight: 'bold', maxLines: 1 })
  const body = stack([
    title,
    text(words(data.about), { size: size.small, maxLines: 1 }),
    boxed(words(data.until)),
  ])
  return {
    height: body.height + 12,
    at: (x, y) => [
      ...body.at(x, y),
      textLine(x + INNER, y + size.title, page, { size: size.small, fill: PAPER.ink, anchor: 'end' }),
    ],
  }
}

/** White on black, so that nobody overlooks it. */
function boxed(words: string): Piece {
  const block = textBlock(
    words,
    { size: size.until, width: INNER - 2 * GAP, weight: 'bold', maxLines: 1 },
    { fill: PAPER.paper },
  )
  const height = block.height + 16
  return {
    height: height + 14,
    at: (x, y) => [
      el('rect', { x, y: y + 8, width: INNER, height, fill: PAPER.ink }),
      ...block.at(x + GAP, y + 13),
    ],
  }
}

const columnWidth = (count: number) => (INNER - LEFT - count * GAP) / count
const columnAt = (at: number, count: number) => LEFT + GAP + at * (columnWidth(count) + GAP)

function columnsOf({ columns }: TruckCard, { words }: Sketch): Piece {
  const width = columnWidth(columns.length)
  const names = columns.map((one) =>
    text(words(one), { width, size: size.body, weight: 'bold', maxLines: 1 }),
  )
  return {
    height: Math.max(...names.map(({ height }) => height)) + 6,
    at: (x, y) => names.flatMap((name, at) => name.at(x + columnAt(at, columns.length), y)),
  }
}

/** What it is on the left, how much on the right, under a line across the page. */
function rowOf(row: Row, { words }: Sketch): Piece {
  const rate = [row.rate, ...(row.signal === undefined ? [] : [row.signal])].map(words).join(' · ')
  const fine = { width: LEFT, size: size.fine, maxLines: 2 }
  const left = stack([
    text(words(row.product), { width: LEFT, size: size.product, weight: 'bold', maxLines: 1 }),
    text(rate, { width: LEFT, size: size.body, weight: 'bold', maxLines: 1 }),
    text(words(row.line), fine),
    text([...row.notes, row.label].map(words).join(' '), fine),
  ])
  const count = row.cells.length
  const width = columnWidth(count)
  const cells = row.cells.map(({ amount, beside }) =>
    stack([
      text(words(amount), {
        width,
        size: count < 3 ? size.amount : size.narrow,
        weight: 'bold',
        maxLines: 3,
      }),
      ...(beside === undefined ? [] : [text(words(beside), { width, size: size.body, maxLines: 1 })]),
    ]),
  )
  return {
    height: Math.max(left.height, ...cells.map(({ height }) => height)) + 10,
    at: (x, y) => [
      rule(x, y),
      ...left.at(x, y + 5),
      ...cells.flatMap((cell, at) => cell.at(x + columnAt(at, count), y + 5)),
    ],
  }
}

const rule = (x: number, y: number): SvgNode => el('rect', { x, y, width: INNER, height: 3, fill: PAPER.ink })

function footOf({ warnings }: TruckCard, { words }: Sketch): Piece {
  const lines = stack(
    warnings.map((one) => text(words(one), { size: size.body, weight: 'bold', maxLines: 1 })),
  )
  return { height: lines.height + 8, at: (x, y) => [rule(x, y), ...lines.at(x, y + 4)] }
}

function describe(data: TruckCard, { words }: Sketch): string {
  const amounts = ({ cells }: Row) =>
    cells.map((cell, at) => `${words(data.columns[at] ?? '')} ${words(cell.amount)}`).join('; ')
  return [
    words(data.title),
    words(data.until),
    ...data.warnings.map(words),
    ...data.rows.map((row) => `${words(row.product)}, ${words(row.rate)}: ${amounts(row)}`),
    ...data.leftOff.map(words),
  ].join('\n')
}

export const truckCard: PictureKind<TruckCard> = { schema: TruckCard, draw }
