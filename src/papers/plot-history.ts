import PDFDocument from 'pdfkit'
import type { Text } from '#src/conversation/text.ts'
import type { ReadBlob } from '#src/pictures/draw-photos.ts'
import { drawPicture } from '#src/pictures/draw-picture.ts'
import { readPhoto } from '#src/pictures/photo.ts'
import { fontFiles } from '#src/pictures/text/fonts.ts'
import { MOST_PHOTOS, PlotHistory } from './history-order.ts'
import { GRAY, INK } from './pdf-sheet.ts'
import { printable } from './printable.ts'

interface Drawing {
  readonly say: (text: Text) => string
  readonly readBlob: ReadBlob
}

interface Captioned {
  readonly bytes: Buffer
  readonly caption: Text
}

const MARGIN = 48
/** Letters shrink from the first size to the last until everything stands on the page. */
const SIZES = [10, 9, 8, 7, 6] as const
const CHART_WIDTH = 300
const PHOTO_HEIGHT = 110
const GAP = 10

/** @throws ZodError when the data are no history */
export async function drawPlotHistory(data: unknown, { say, readBlob }: Drawing): Promise<Uint8Array> {
  const history = PlotHistory.parse(data)
  const chart =
    history.chart === null
      ? null
      : (await drawPicture('control-chart', history.chart, { say, theme: 'light' })).bytes
  const photos = await readPhotos(history, readBlob)
  const doc = newPage(say(history.title))
  const done = bytesOf(doc)
  write(doc, history, { say, chart, photos })
  doc.end()
  return done
}

function newPage(title: string): PDFKit.PDFDocument {
  const [plain = '', bold = ''] = fontFiles()
  const doc = new PDFDocument({
    size: 'LETTER',
    margins: { top: MARGIN, bottom: 24, left: MARGIN, right: MARGIN },
    font: plain,
    info: { Title: title, Creator: 'Swardhand' },
  })
  doc.registerFont('plain', plain)
  doc.registerFont('bold', bold)
  return doc
}

function write(
  doc: PDFKit.PDFDocument,
  { title, crew, isDemo, lines }: PlotHistory,
  {
    say,
    chart,
    photos,
  }: {
    readonly say: Drawing['say']
    readonly chart: Uint8Array | null
    readonly photos: readonly Captioned[]
  },
): void {
  const width = doc.page.width - 2 * MARGIN
  doc
    .font('bold')
    .fontSize(14)
    .fillColor(INK)
    .text(printable(say(title)), MARGIN, MARGIN, { width })
  doc.font('plain').fontSize(8).fillColor(GRAY).text(printable(crew), { width })
  if (isDemo) doc.text('DEMO DATA: an invented crew, nobody’s real records', { width })
  doc.moveDown(0.6)
  const top = doc.y
  const pictures = (chart === null ? 0 : CHART_WIDTH + GAP) + (photos.length === 0 ? 0 : PHOTO_HEIGHT + 30)
  const words = lines.map((line) => `•  ${printable(say(line))}`).join('\n')
  const room = doc.page.height - MARGIN - top - pictures
  const size = SIZES.find((one) => doc.fontSize(one).heightOfString(words, { width }) <= room) ?? SIZES[4]
  doc.fontSize(size).fillColor(INK).text(words, MARGIN, top, { width, height: room, ellipsis: true })
  let y = Math.min(doc.y, top + room) + GAP
  if (chart !== null) {
    doc.image(Buffer.from(chart), MARGIN, y, { fit: [CHART_WIDTH, CHART_WIDTH] })
    y += CHART_WIDTH + GAP
  }
  const each = (width - GAP * (MOST_PHOTOS - 1)) / MOST_PHOTOS
  for (const [at, { bytes, caption }] of photos.entries()) {
    const x = MARGIN + at * (each + GAP)
    doc.image(bytes, x, y, { fit: [each, PHOTO_HEIGHT] })
    doc
      .fontSize(7)
      .text(printable(say(caption)), x, y + PHOTO_HEIGHT + 2, { width: each, height: 20, ellipsis: true })
  }
}

/** Pixels of a photo on the page. */
const PHOTO_BOX = { width: 600, height: 600 }

/** Photos that can be read, each with its caption, one after another. */
async function readPhotos({ photos }: PlotHistory, readBlob: ReadBlob): Promise<Captioned[]> {
  const found: Captioned[] = []
  for (const { blob, caption } of photos) {
    const photo = await readPhoto(await readBlob(blob), PHOTO_BOX)
    if (photo !== null) found.push({ bytes: photo.bytes, caption })
  }
  return found
}

function bytesOf(doc: PDFKit.PDFDocument): Promise<Uint8Array> {
  const chunks: Buffer[] = []
  return new Promise((done, fail) => {
    doc.on('data', (chunk: Buffer) => chunks.push(chunk))
    doc.on('end', () => done(Buffer.concat(chunks)))
    doc.on('error', fail)
  })
}
