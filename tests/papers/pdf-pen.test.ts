import fc from 'fast-check'
import PDFDocument from 'pdfkit'
import { expect, test } from 'vitest'
import { penOf } from '#src/papers/pdf-pen.ts'
import { fontFiles } from '#src/pictures/text/fonts.ts'

const [plain = '', bold = ''] = fontFiles()

/** A document without anything that differs from one to the next, as text. */
async function documentOf(write: (doc: PDFKit.PDFDocument) => void): Promise<string> {
  const doc = new PDFDocument({
    autoFirstPage: false,
    compress: false,
    font: plain,
    info: { CreationDate: new Date(0) },
  })
  const chunks: Buffer[] = []
  doc.on('data', (chunk: Buffer) => chunks.push(chunk))
  const ended = new Promise((done) => doc.on('end', done))
  write(doc)
  doc.end()
  await ended
  return Buffer.concat(chunks).toString('latin1')
}

const line = fc.oneof(
  // The first two are kerned and joined, the third stands on others, and signs of the last are put elsewhere.
  fc.constantFrom('AVATAR To. We', 'office affluent', 'a\u0301 e\u0323\u0302', 'שָׁלוֹם', 'Ñandú', ''),
  fc.string({ maxLength: 20 }),
  fc.string({ unit: 'grapheme', maxLength: 20 }),
  fc.string({ minLength: 119, maxLength: 122 }),
)
const placed = fc.record({
  line,
  x: fc.double({ min: 0, max: 600, noNaN: true }),
  y: fc.double({ min: 0, max: 700, noNaN: true }),
  size: fc.constantFrom(6.5, 7.5, 8, 8.5, 9, 10.5, 11),
  weight: fc.constantFrom('plain', 'bold'),
  strike: fc.boolean(),
} as const)

test('a document is to the byte what the library alone makes of it, however often its lines come again', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(placed, { minLength: 1, maxLength: 8 }), async (some) => {
      const lines = [...some, ...some, ...some.map((one) => ({ ...one, x: one.y, y: one.x, size: 7 }))]
      const ours = await documentOf((doc) => {
        const pen = penOf(doc, { plain, bold })
        for (const page of [lines, lines]) {
          doc.addPage()
          for (const { line, strike, ...at } of page) pen.write(line, at, strike)
          pen.lift()
        }
      })
      const theirs = await documentOf((doc) => {
        for (const page of [lines, lines]) {
          doc.addPage()
          for (const { line, x, y, size, weight, strike } of page)
            doc
              .font({ plain, bold }[weight])
              .fontSize(size)
              .text(line, x, y, strike ? { lineBreak: false, strike } : { lineBreak: false })
        }
      })
      expect(ours).toBe(theirs)
    }),
    { numRuns: 25 },
  )
}, 30_000)

test('a line that was written before is not laid out again', async () => {
  let laidOut = 0
  await documentOf((doc) => {
    const text = doc.text.bind(doc) as (...parts: unknown[]) => PDFKit.PDFDocument
    doc.text = (...parts: unknown[]) => {
      laidOut += 1
      return text(...parts)
    }
    const pen = penOf(doc, { plain, bold })
    for (let at = 0; at < 5; at += 1) {
      doc.addPage()
      pen.write('Wind speed', { x: 48, y: 60 + at, size: 6.5, weight: 'plain' })
      pen.write('Wind speed', { x: 48, y: 90, size: 8.5 + at, weight: 'plain' })
      pen.lift()
    }
  })
  expect(laidOut).toBe(1)
})
