import { fontFiles } from '#src/pictures/text/fonts.ts'
import { printHead } from '#src/record/chain.ts'
import { printable } from './printable.ts'
import type { PaperSource } from './source.ts'

export const INK = '#111111'
export const GRAY = '#555555'
export const RULE = '#999999'

/** How a piece of text looks. */
export interface Look {
  readonly size?: number
  readonly bold?: boolean
  readonly color?: string
  readonly strike?: boolean
  readonly align?: 'left' | 'right' | 'center'
}

/** A paper's pages with head and foot, and a pen that knows where the page ends. */
export interface Sheet {
  readonly doc: PDFKit.PDFDocument
  readonly left: number
  readonly width: number
  /** Opens the first page. */
  begin(): void
  /** What stands at the top of further pages while one thing goes on; null when it has ended. */
  continuing(words: string | null): void
  /** Goes to a new page when less than this height is left. */
  need(height: number): void
  /** Lines of text across the page, or within a part of it. */
  text(
    words: string,
    look?: Look,
    within?: { readonly x: number; readonly y: number; readonly width: number },
  ): void
  heightOf(words: string, look: Look, width: number): number
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

export function sheetOf(doc: PDFKit.PDFDocument, source: PaperSource): Sheet {
  const [plain = '', heavy = ''] = fontFiles()
  let page = 0
  let goesOn: string | null = null
  const left =
    doc.options.margins && typeof doc.options.margins === 'object' ? Number(doc.options.margins.left) : 48
  const width = () => doc.page.width - 2 * left
  const bottom = () => doc.page.height - doc.page.margins.bottom

  function style({ size = 8.5, bold = false, color = INK }: Look): void {
    // By their paths: under a name of its own pdfkit would read a font anew each time.
    doc
      .font(bold ? heavy : plain)
      .fontSize(size)
      .fillColor(color)
  }

  /** Text in the margins: it must not start a page of its own. */
  function margin(words: string, y: number, look: Look): void {
    const kept = { ...doc.page.margins }
    doc.page.margins = { ...kept, top: 0, bottom: 0 }
    style(look)
    doc.text(printable(words), left, y, {
      width: width(),
      align: look.align ?? 'left',
      lineBreak: false,
      ellipsis: true,
      height: 12,
    })
    doc.page.margins = kept
  }

  function open(): void {
    doc.addPage()
    page += 1
    const { crew, order, holds } = source
    margin(`${TITLES[order.reader]}: ${crew.name}`, 26, { bold: true, size: 11 })
    margin(`${holds}. Written ${order.day}.`, 42, { size: 7.5, color: GRAY })
    if (crew.demo) margin(DEMO, 12, { size: 7.5, bold: true, align: 'center' })
    const head = order.until.head === null ? 'none' : printHead(order.until.head)
    margin(`Newest link of the chain: ${head}`, doc.page.height - 40, { size: 6.5, color: GRAY })
    margin(`Page ${page}`, doc.page.height - 28, { size: 8, align: 'right' })
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
    style({ size: 7.5, color: GRAY })
    doc.text(goesOn, left, doc.y)
    doc.y += 3
  }

  return {
    doc,
    left,
    get width() {
      return width()
    },
    begin: open,
    continuing(words) {
      goesOn = words
    },
    need(height) {
      if (doc.y + height > bottom()) open()
    },
    text(words, look = {}, within) {
      style(look)
      const options = {
        width: within?.width ?? width(),
        align: look.align ?? ('left' as const),
        ...(look.strike === true ? { strike: true } : {}),
      }
      doc.text(printable(words), within?.x ?? left, within?.y ?? doc.y, options)
    },
    heightOf(words, look, within) {
      style(look)
      return doc.heightOfString(printable(words), { width: within })
    },
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
