import { BoundedMap } from '#src/memory/bounded-map.ts'
import { fontFiles, textWidth } from '#src/pictures/text/fonts.ts'
import { wrapText } from '#src/pictures/text/wrap.ts'
import { printHead } from '#src/record/chain.ts'
import { penOf } from './pdf-pen.ts'
import { printable } from './printable.ts'
import type { PaperSource } from './source.ts'

export const INK = '#111111'
export const GRAY = '#555555'
export const RULE = '#999999'

/** Size of letters where nothing else is said. */
const SIZE = 8.5
/** Height of a line, in parts of the size of its letters. */
const LINE_HEIGHT = 1.164

/** How a piece of text looks. */
export interface Look {
  readonly size?: number
  readonly bold?: boolean
  readonly color?: string
  readonly strike?: boolean
}

/** One text below another in a cell, each with its own look. */
export interface Cell {
  readonly x: number
  readonly width: number
  readonly texts: readonly (readonly [words: string, look?: Look])[]
}

/** A paper's pages with head and foot, and a pen that knows where the page ends. */
export interface Sheet {
  readonly doc: PDFKit.PDFDocument
  readonly left: number
  readonly width: number
  /** Opens the first page. */
  begin(): void
  /** Ends the document. */
  end(): void
  /** What stands at the top of further pages while one thing goes on; null when it has ended. */
  continuing(words: string | null): void
  /** Goes to a new page when less than this height is left. */
  need(height: number): void
  /** Lines of text across the page. */
  text(words: string, look?: Look): void
  /** Cells side by side. One that is higher than what is left of the page goes on at its place on the next. */
  row(cells: readonly Cell[]): void
  gap(height: number): void
  rule(): void
  readonly page: () => number
}

/** Words that stand on each page of a demo crew's papers. */
const DEMO = 'DEMO DATA: an invented crew, nobody’s real records'

const TITLES = {
  inspector: 'Application records',
  customer: 'Application records for the customer',
  treating: 'Products applied, for treating a person',
} as const

/** Texts whose lines are known: names of fields, and all that crews write again and again. */
const MOST_TEXTS = 2000
/** What is longer seldom stands on a paper twice. */
const LONGEST_KNOWN = 300
/** A row up to this height is kept on one page. */
const MOST_TOGETHER = 400

export function sheetOf(doc: PDFKit.PDFDocument, source: PaperSource): Sheet {
  const [plain = '', heavy = ''] = fontFiles()
  const pen = penOf(doc, { plain, bold: heavy })
  const known = new Map<string, BoundedMap<string, readonly string[]>>()
  let page = 0
  let goesOn: string | null = null
  let ink = ''
  const left =
    doc.options.margins && typeof doc.options.margins === 'object' ? Number(doc.options.margins.left) : 48
  const width = () => doc.page.width - 2 * left
  const bottom = () => doc.page.height - doc.page.margins.bottom
  const whole = (texts: Cell['texts']): Cell => ({ x: left, width: width(), texts })

  /** @param most further lines are dropped */
  function linesOf(
    words: string,
    { size = SIZE, bold = false }: Look,
    within: number,
    most?: number,
  ): readonly string[] {
    const weight = bold ? 'bold' : 'plain'
    const setting = {
      size,
      width: within,
      weight,
      ...(most === undefined ? {} : { maxLines: most }),
    } as const
    const like = `${weight} ${size} ${within} ${most}`
    const known = knownLike(like)
    const before = known.get(words)
    if (before !== undefined) return before
    const lines = wrapText(printable(words), setting)
    if (words.length <= LONGEST_KNOWN) known.set(words, lines)
    return lines
  }

  /** There are a handful of looks, each in as many widths as a page has columns. */
  function knownLike(like: string): BoundedMap<string, readonly string[]> {
    const found = known.get(like) ?? new BoundedMap(MOST_TEXTS)
    known.set(like, found)
    return found
  }

  function write(line: string, x: number, y: number, look: Look): void {
    const { size = SIZE, bold = false, color = INK, strike = false } = look
    if (ink !== color) doc.fillColor(color)
    ink = color
    pen.write(line, { x, y, size, weight: bold ? 'bold' : 'plain' }, strike)
  }

  /** One line in the margins, at the left, the middle or the right. */
  function margin(words: string, y: number, look: Look, align: 0 | 0.5 | 1 = 0): void {
    const { size = SIZE, bold = false } = look
    const weight = bold ? 'bold' : 'plain'
    const [line = ''] = linesOf(words, look, width(), 1)
    const space = align === 0 ? 0 : Math.max(0, width() - textWidth(line, size, weight))
    write(line, left + space * align, y, look)
  }

  function open(): void {
    pen.lift()
    doc.addPage()
    page += 1
    ink = ''
    const { crew, order, holds } = source
    margin(`${TITLES[order.reader]}: ${crew.name}`, 26, { bold: true, size: 11 })
    margin(`${holds}. Written ${order.day}.`, 42, { size: 7.5, color: GRAY })
    if (crew.demo) margin(DEMO, 12, { size: 7.5, bold: true }, 0.5)
    const head = order.until.head === null ? 'none' : printHead(order.until.head)
    margin(`Newest link of the chain: ${head}`, doc.page.height - 40, { size: 6.5, color: GRAY })
    margin(`Page ${page}`, doc.page.height - 28, { size: 8 }, 1)
    margin('An aid. The label and the text of the state agency govern.', doc.page.height - 28, {
      size: 6.5,
      color: GRAY,
    })
    doc
      .moveTo(left, 58)
      .lineTo(left + width(), 58)
      .lineWidth(0.8)
      .strokeColor(RULE)
      .stroke()
    doc.x = left
    doc.y = doc.page.margins.top
    if (goesOn === null) return
    margin(goesOn, doc.y, { size: 7.5, color: GRAY })
    doc.y = doc.page.margins.top + heightOf(7.5) + 3
  }

  /** DejaVu Sans, both weights: its own ascent and descent. */
  const heightOf = (size: number) => size * LINE_HEIGHT

  function row(cells: readonly Cell[]): void {
    let rest = cells.map((cell) => ({
      x: cell.x,
      lines: cell.texts.flatMap(([words, look = {}]) =>
        linesOf(words, look, cell.width).map((line) => ({ line, look, height: heightOf(look.size ?? SIZE) })),
      ),
    }))
    const heights = rest.map(({ lines }) => lines.reduce((sum, { height }) => sum + height, 0))
    need(Math.min(Math.max(...heights), MOST_TOGETHER))
    for (;;) {
      const top = doc.y
      let lowest = top
      rest = rest.map(({ x, lines }) => {
        let [y, written] = [top, 0]
        for (const { line, look, height } of lines) {
          if (y + height > bottom()) break
          write(line, x, y, look)
          y += height
          written += 1
        }
        lowest = Math.max(lowest, y)
        return { x, lines: lines.slice(written) }
      })
      doc.y = lowest
      if (rest.every(({ lines }) => lines.length === 0)) return
      open()
    }
  }

  function need(height: number): void {
    if (doc.y + height > bottom()) open()
  }

  return {
    doc,
    left,
    get width() {
      return width()
    },
    begin: open,
    end() {
      pen.lift()
      doc.end()
    },
    continuing(words) {
      goesOn = words
    },
    need,
    text: (words, look = {}) => row([whole([[words, look]])]),
    row,
    gap(height) {
      doc.y += height
    },
    rule() {
      doc
        .moveTo(left, doc.y)
        .lineTo(left + width(), doc.y)
        .lineWidth(0.4)
        .strokeColor(RULE)
        .stroke()
    },
    page: () => page,
  }
}
