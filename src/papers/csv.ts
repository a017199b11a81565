import { stringify } from 'csv-stringify'
import { columnsFor, tableRows } from './columns.ts'
import type { PaperSource } from './source.ts'

/**
 * The table as bytes: a line for each product of each record, every cell in quotes. A cell that a spreadsheet would run
 * as a formula begins with an apostrophe. Starts with the mark by which spreadsheets know UTF-8.
 */
export function writeCsv({ order, records }: PaperSource): {
  readonly input: AsyncIterable<string[]>
  readonly shape: NodeJS.ReadWriteStream
} {
  const columns = columnsFor(order.reader)
  async function* lines() {
    yield columns.map(({ name }) => name)
    for await (const record of records())
      for (const row of tableRows(record)) yield columns.map(({ cell }) => cell(row))
  }
  return {
    input: lines(),
    shape: stringify({ bom: true, quoted: true, escape_formulas: true, record_delimiter: 'windows' }),
  }
}
