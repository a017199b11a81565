import { setImmediate as breathe } from 'node:timers/promises'
import PDFDocument from 'pdfkit'
import { fontFiles } from '#src/pictures/text/fonts.ts'
import { blockOf } from './pdf-block.ts'
import { closePaper } from './pdf-close.ts'
import { sheetOf } from './pdf-sheet.ts'
import type { PaperSource } from './source.ts'
import { totalling } from './totals.ts'

/** Bytes that may wait for the disk before writing goes on. */
const MOST_WAITING = 256 * 1024

/** The paper as a stream of bytes; `finished` fails when writing it does. */
export function writePdf(source: PaperSource): {
  readonly bytes: NodeJS.ReadableStream
  readonly finished: Promise<void>
} {
  const [plain = ''] = fontFiles()
  const doc = new PDFDocument({
    size: 'LETTER',
    margins: { top: 64, bottom: 54, left: 48, right: 48 },
    font: plain,
    autoFirstPage: false,
    info: { Title: `Application records, ${source.crew.name}`, Creator: 'Swardhand' },
    lang: 'en-US',
  })
  return { bytes: doc, finished: write(doc, source) }
}

async function write(doc: PDFKit.PDFDocument, source: PaperSource): Promise<void> {
  try {
    const sheet = sheetOf(doc, source)
    sheet.begin()
    const sums = totalling()
    let count = 0
    for await (const few of source.records())
      for (const record of few) {
        blockOf(sheet, record, source)
        sums.count(record)
        count += 1
        // A record is laid out in milliseconds: others have their turn after each.
        do await breathe()
        while (doc.readableLength > MOST_WAITING)
      }
    closePaper(sheet, source, { count, totals: sums.totals() })
    sheet.end()
  } catch (error) {
    doc.destroy(error instanceof Error ? error : new Error(String(error)))
    throw error
  }
}
