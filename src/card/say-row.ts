import { say, type Text } from '#src/conversation/text.ts'
import { sayRate } from '#src/quantity/said.ts'
import type { CardRow } from './build-card.ts'
import type { CardFill } from './fills.ts'
import type { CardCell } from './measure-line.ts'

/** The amounts first; of a product with several lines also the words by which they are told apart. */
export function sayRow(row: CardRow, fills: readonly CardFill[], isOneOfMany: boolean): Text {
  const amounts = row.cells.map((cell, at) =>
    say(`card.at-${fills[at]?.id ?? 'full'}`, { amount: sayAmount(cell), volume: fills[at]?.volume ?? '' }),
  )
  const beside = row.cells.map(({ adjuvant }) => adjuvant ?? say('card.not-measurable'))
  return say('card.row', {
    amounts: { all: amounts },
    product: row.product,
    rate: saySpan(row),
    adjuvant:
      row.adjuvant === null
        ? { literal: '' }
        : say('card.row-adjuvant', { adjuvant: row.adjuvant.name, each: { all: beside } }),
    line: isOneOfMany ? say('card.row-line', { line: shortened(row.line) }) : { literal: '' },
  })
}

const SHORT = 56
const shortened = (line: string) => (line.length <= SHORT ? line : `${line.slice(0, SHORT - 1).trimEnd()}…`)

/** `3 to 4 pt/acre`, or the one rate. */
export function saySpan({ low, high }: Pick<CardRow, 'low' | 'high'>): Text {
  const [least, most] = [sayRate(low), sayRate(high)]
  if (least.value === most.value) return say('words.quantity', { quantity: most })
  return say('card.span', { low: least.unit === most.unit ? Number(least.value) : least, high: most })
}

/** `6.4 g`, or both ends, `32.5 to 43.5 mL`; where the tools measure one end alone, that one with its name. */
export function sayAmount({ low, high }: CardCell): Text {
  if (low === null)
    return high === null ? say('card.not-measurable') : say('card.highest-only', { amount: high })
  if (high === null) return say('card.lowest-only', { amount: low })
  if (low.unit !== high.unit) return say('card.span', { low, high })
  return low.value === high.value
    ? say('words.quantity', { quantity: high })
    : say('card.span', { low: Number(low.value), high })
}
