import type { Quantity } from '#src/quantity/quantity.ts'
import { printHead } from '#src/record/chain.ts'
import type { Sheet } from './pdf-sheet.ts'
import { GRAY, RULE } from './pdf-sheet.ts'
import type { PaperSource } from './source.ts'
import type { Total } from './totals.ts'

/** The end of a paper: totals by product and site, the newest link of the chain, and a line to sign on. */
export function closePaper(
  sheet: Sheet,
  { order, crew }: PaperSource,
  { count, totals }: { readonly count: number; readonly totals: readonly Total[] },
): void {
  if (order.reader !== 'treating') writeTotals(sheet, totals)
  sheet.need(130)
  sheet.gap(8)
  sheet.text(
    `${count} ${count === 1 ? 'record' : 'records'} on ${sheet.page()} ${sheet.page() === 1 ? 'page' : 'pages'}.`,
  )
  const { head } = order.until
  if (head !== null)
    sheet.text(
      `Newest link of the crew’s chain when this was written: ${printHead(head)}. Whoever keeps this paper can have the chain checked against it.`,
      { size: 7.5, color: GRAY },
    )
  if (order.reader !== 'treating') writeSignature(sheet, crew.name)
}

const HEADS = ['Product', 'Registration', 'Site', 'Jobs', 'Product as it comes', 'Area treated'] as const
/** Parts of the width, in the order of {@link HEADS}. */
const PARTS = [0.24, 0.13, 0.23, 0.07, 0.17, 0.16]

function writeTotals(sheet: Sheet, totals: readonly Total[]): void {
  sheet.need(70)
  sheet.text('Totals by product and site', { bold: true, size: 10.5 })
  sheet.text('Standing records only, voided ones left out.', { size: 7.5, color: GRAY })
  sheet.gap(3)
  if (totals.length === 0) sheet.text('No product.')
  else writeLine(sheet, HEADS, true)
  for (const total of totals) writeLine(sheet, cellsOf(total), false)
  sheet.gap(4)
}

function cellsOf({
  product,
  registration,
  site,
  jobs,
  amounts,
  areas,
  withoutAmount,
}: Total): readonly string[] {
  const lacking = withoutAmount === 0 ? '' : ` (and ${withoutAmount} without an amount)`
  return [product, registration || '-', site || '-', String(jobs), `${sums(amounts)}${lacking}`, sums(areas)]
}

const sums = (all: readonly Quantity[]) =>
  all.length === 0 ? '-' : all.map(({ value, unit }) => `${value} ${unit}`).join(' + ')

function writeLine(sheet: Sheet, cells: readonly string[], bold: boolean): void {
  const look = { size: 8, bold }
  let x = sheet.left
  sheet.row(
    cells.map((cell, at) => {
      const width = (PARTS[at] ?? 0) * sheet.width
      x += width
      return { x: x - width, width: width - 6, texts: [[cell, look]] }
    }),
  )
  sheet.gap(3)
}

function writeSignature(sheet: Sheet, crew: string): void {
  sheet.gap(34)
  const { doc, left, width } = sheet
  const y = doc.y
  const half = width * 0.45
  doc.lineWidth(0.8).strokeColor(RULE)
  doc
    .moveTo(left, y)
    .lineTo(left + half, y)
    .stroke()
  doc
    .moveTo(left + width * 0.55, y)
    .lineTo(left + width, y)
    .stroke()
  sheet.gap(3)
  const look = { size: 7.5, color: GRAY }
  sheet.row([
    { x: left, width: half, texts: [[`Signature, for ${crew}`, look]] },
    { x: left + width * 0.55, width: half, texts: [['Printed name, license number, date', look]] },
  ])
}
