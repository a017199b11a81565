import type { Json } from '#src/record/canonical.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { recordName } from '#src/record/number.ts'
import type { ProductUsed } from '#src/record/product.ts'
import type { FieldId } from '#src/record/record.ts'
import { labelOf } from '#src/record/text.ts'
import { printValue } from '#src/records/print-value.ts'
import { printField } from '#src/records/show-record.ts'
import { amendmentHead } from './amendments.ts'
import { firstAidOf } from './first-aid.ts'
import type { Reader } from './order.ts'
import type { Sheet } from './pdf-sheet.ts'
import { GRAY } from './pdf-sheet.ts'
import { fieldsFor } from './readers.ts'
import type { PaperRead, PaperRecord, PaperSource } from './source.ts'

/** A block is not begun where less than this is left of the page. */
const LEAST_HEIGHT = 110

/** One record: how it stands, its products, its fields, and what was amended. */
export function blockOf(sheet: Sheet, record: PaperRecord, { order }: PaperSource): void {
  sheet.need(LEAST_HEIGHT)
  sheet.continuing(`${recordName(record.row.number)}, continued`)
  writeTitle(sheet, record, order.reader)
  if (record.kind === 'unreadable') {
    sheet.text('This record cannot be read: it was changed outside the program.')
  } else {
    writeProducts(sheet, record, order.reader === 'treating')
    writeFields(sheet, cellsOf(record, fieldsFor(order.reader)))
    for (const amendment of record.amendments) writeAmendment(sheet, amendment)
  }
  sheet.continuing(null)
  sheet.gap(6)
  sheet.rule()
  sheet.gap(8)
}

function writeTitle(sheet: Sheet, record: PaperRecord, reader: Reader): void {
  const { row, site } = record
  const place = reader === 'treating' || site === '' ? '' : ` · ${site}`
  sheet.text(`${recordName(row.number)} · ${row.appliedOn ?? 'day not recorded'}${place}`, {
    bold: true,
    size: 10.5,
  })
  sheet.text(standingOf(record, reader), { size: 8, color: GRAY, bold: row.voidedAtMs !== null })
  if (record.kind === 'read' && record.lacks.length > 0)
    sheet.text(`Missing: ${record.lacks.join('; ')}`, { size: 8 })
  sheet.gap(3)
}

const WITHIN = {
  yes: 'within the label',
  no: 'NOT within the label',
  unknown: 'not checked against the label',
} as const

function standingOf(record: PaperRecord, reader: Reader): string {
  const { row } = record
  if (row.voidedAtMs !== null) return 'VOIDED: it does not count, and stays in the record for what it was'
  const written = record.kind === 'read' ? `, written ${printValue(record.original.writtenAt as Json)}` : ''
  if (reader !== 'inspector') return `Standing${written}`
  return [
    row.complete ? 'Complete' : 'NOT complete',
    WITHIN[row.withinLabel],
    ...(row.late ? ['written late'] : []),
  ]
    .join(', ')
    .concat(written)
}

/** What went on, a product at a time: the line that anybody looks for first. */
function writeProducts(sheet: Sheet, record: PaperRead, withFirstAid: boolean): void {
  for (const product of recorded(record.current.record.products) ?? []) {
    sheet.need(34)
    sheet.text(product.name, { bold: true, size: 9 })
    sheet.text(productLine(product), { size: 8.5 })
    if (!withFirstAid) continue
    const entry = record.entries.find(({ name }) => name === product.name)
    if (entry !== undefined) sheet.text(`Signal word: ${entry.signalWord}`, { size: 8.5 })
    sheet.text(`First aid on the label: ${firstAidOf(record, product)}`, { size: 9 })
  }
  sheet.gap(3)
}

function productLine(product: ProductUsed): string {
  const { registration, exempt25b, stateNumber, specialLocalNeed, actives, rate, amount, label, restricted } =
    product
  const part = (name: string, value: unknown) => {
    const printed = printValue(value as Json | undefined)
    return printed === '' ? [] : [`${name} ${printed}`]
  }
  return [
    ...(exempt25b === true ? ['exempt, minimum risk'] : part('Reg. no.', registration)),
    ...part('state no.', stateNumber),
    ...part('special local need', specialLocalNeed),
    ...part('active', actives),
    ...part('amount', amount),
    ...part('rate', rate),
    ...part('label', label),
    ...(recorded(restricted) === true ? ['RESTRICTED USE'] : []),
  ].join('; ')
}

interface Field {
  readonly name: string
  readonly value: string
}

function cellsOf(record: PaperRead, fields: readonly FieldId[]): readonly Field[] {
  return fields.flatMap((field) => {
    if (field === 'products') return []
    const value = printField(field, record.current.record[field])
    return value === '' || value === 'withheld' ? [] : [{ name: labelOf(field), value }]
  })
}

const NAME_LOOK = { size: 6.5, color: GRAY } as const
const VALUE_LOOK = { size: 8.5 } as const
/** Values longer than this take a line of their own. */
const LONG = 60
const COLUMNS = 3
const GUTTER = 10

/** Fields side by side, so that a record stays on half a page. */
function writeFields(sheet: Sheet, cells: readonly Field[]): void {
  const width = (sheet.width - GUTTER * (COLUMNS - 1)) / COLUMNS
  const short = cells.filter(({ value }) => value.length <= LONG)
  for (let at = 0; at < short.length; at += COLUMNS) writeRow(sheet, short.slice(at, at + COLUMNS), width)
  for (const cell of cells.filter(({ value }) => value.length > LONG)) writeRow(sheet, [cell], sheet.width)
}

function writeRow(sheet: Sheet, cells: readonly Field[], width: number): void {
  sheet.row(
    cells.map(({ name, value }, at) => ({
      x: sheet.left + at * (width + GUTTER),
      width,
      texts: [
        [name, NAME_LOOK],
        [value, VALUE_LOOK],
      ],
    })),
  )
  sheet.gap(3)
}

/** What stood before is struck through and still to be read; what stands now comes after it. */
function writeAmendment(sheet: Sheet, amendment: PaperRead['amendments'][number]): void {
  sheet.need(30)
  sheet.gap(2)
  sheet.text(amendmentHead(amendment), { size: 8, bold: true })
  for (const { field, before, after } of amendment.changes) {
    const [was, now] = [printField(field, before), printField(field, after) || 'nothing']
    const half = (sheet.width - GUTTER - 90) / 2
    const look = { size: 8 } as const
    const { left } = sheet
    sheet.row([
      { x: left, width: 86, texts: [[labelOf(field), { size: 7, color: GRAY }]] },
      {
        x: left + 90,
        width: half,
        texts: [[was || 'nothing', { ...look, strike: was !== '', color: GRAY }]],
      },
      { x: left + 90 + half + GUTTER, width: half, texts: [[now, look]] },
    ])
    sheet.gap(2)
  }
}
