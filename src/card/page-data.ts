import { z } from 'zod'
import { say, type Text } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import { sayOutput, sayRate } from '#src/quantity/said.ts'
import { sayTyped } from '#src/sprayer/say-setup.ts'
import type { CardRow } from './build-card.ts'
import type { CardParts } from './card-reply.ts'
import type { CardPage } from './pages.ts'
import { sayAmount, saySpan } from './say-row.ts'

export interface PagePlace {
  readonly number: number
  readonly of: number
  readonly until: string
}

/** What one page is drawn from, as the picture `truck-card` wants it. */
export function pageData(
  { sprayer, person, measured, fills }: CardParts,
  { rows, leftOff }: CardPage<CardRow, Text>,
  { number, of, until }: PagePlace,
  { today, crew }: Pick<Tools, 'today' | 'crew'>,
) {
  const { tip, pressure } = sprayer.details
  return z.json().parse({
    title: say('card.heading', { sprayer: sprayer.name, person: person.name }),
    about: say('card.about', {
      output: sayOutput(measured.output),
      tip: sayTyped(tip),
      pressure: sayTyped(pressure),
      day: { day: today },
    }),
    until: say('card.until', { day: { day: until } }),
    page: say('card.page-number', { page: number, pages: of }),
    columns: fills.map(({ id, volume }) => say(`card.column-${id}`, { volume })),
    rows: rows.map(rowData),
    leftOff: [...leftOff],
    warnings: [say('card.wins'), ...(crew.demo ? [say('common.demo')] : [])],
  })
}

const LONGEST_LINE = 400

function rowData(row: CardRow) {
  const { adjuvant, signalWord } = row
  return {
    product: row.product,
    ...(signalWord === 'none' ? {} : { signal: say(`signal.${signalWord.toLowerCase()}`) }),
    line: row.line.slice(0, LONGEST_LINE),
    rate: saySpan(row),
    label: say('card.label', { version: row.version, day: { day: row.goodUntil } }),
    notes: [
      ...(adjuvant === null
        ? []
        : [say('card.with', { rate: sayRate(adjuvant.rate), adjuvant: adjuvant.name })]),
      ...row.notes,
    ],
    cells: row.cells.map((cell) => ({
      amount: sayAmount(cell),
      ...(cell.adjuvant === null ? {} : { beside: say('card.beside', { amount: cell.adjuvant }) }),
    })),
  }
}
