import { stringify } from 'csv-stringify/sync'
import { columnsFor, tableRows } from './columns.ts'
import type { PaperSource } from './source.ts'

/** By this spreadsheets know UTF-8. */
const MARK = '\ufeff'
const LINE_END = '\r\n'

/**
 * The table as text: a line for each product of each record, every cell in quotes. A cell that a spreadsheet would run
 * as a formula begins with an apostrophe.
 */
export async function* csvText({ order, records }: PaperSource): AsyncGenerator<string> {
  const columns = columnsFor(order.reader)
  yield MARK + csvLine(columns.map(({ name }) => name))
  for await (const few of records()) {
    let text = ''
    for (const record of few)
      for (const row of tableRows(record)) text += csvLine(columns.map(({ cell }) => cell(row)))
    yield text
  }
}

/** Begins with a letter or digit and holds no quote: nearly all cells, and nothing to do but to put them in quotes. */
const PLAIN = /^[0-9A-Za-z][^"]*$/

/** One line. Whatever is not plain is left to the library, which knows what spreadsheets run. */
export function csvLine(cells: readonly string[]): string {
  // Joined at once: a line that grows cell by cell is held as a tree of its parts until it is written.
  return cells.map(quoted).join(',') + LINE_END
}

const quoted = (cell: string) => (cell === '' ? '' : PLAIN.test(cell) ? `"${cell}"` : byTheLibrary(cell))

const byTheLibrary = (cell: string) =>
  stringify([[cell]], { quoted: true, escape_formulas: true, eof: false })
