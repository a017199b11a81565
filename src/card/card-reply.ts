import { type Attachment, type Fact, type Reply, reply } from '#src/conversation/reply.ts'
import { factValue } from '#src/conversation/steps.ts'
import { asTyped, say } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import type { MeasuredOutput } from '#src/mixing/output.ts'
import { sayOutput } from '#src/quantity/said.ts'
import type { Card, CardRow } from './build-card.ts'
import type { CardFill } from './fills.ts'
import { pageData } from './page-data.ts'
import { pagesOf } from './pages.ts'
import { sayRow } from './say-row.ts'
import type { CardSubject } from './truck-card.ts'

export interface CardParts extends CardSubject, Card {
  readonly fills: readonly CardFill[]
  readonly measured: Extract<MeasuredOutput, { kind: 'measured' }>
}

/** More pages than this are asked for by product: a messenger takes ten files with one message. */
const MOST_PAGES = 10

/** The card in words, the number first, and as pages to print. */
export function answerCard(parts: CardParts, tools: Tools): Reply {
  const { sprayer, person, rows, leftOff, fills, measured } = parts
  const left = leftOff.map(({ product, because }) => say('card.left-off', { product, because }))
  if (rows.length === 0)
    return reply('hold', say('card.nothing', { sprayer: sprayer.name }), {
      lines: left,
      audience: 'person',
      safety: { about: ['measuring'] },
    })
  const days = [measured.goodUntil, ...rows.map(({ goodUntil }) => goodUntil)].sort()
  const until = days[0] ?? measured.goodUntil
  const pages = pagesOf(rows, left)
  const shown = pages.slice(0, MOST_PAGES)
  const isOneOfMany = ({ product }: CardRow) => rows.filter((row) => row.product === product).length > 1
  return reply(
    measured.notes.length > 0 ? 'heads-up' : 'answer',
    say('card.title', { rows: rows.length, sprayer: sprayer.name, person: person.name }),
    {
      lines: [
        say('card.until', { day: { day: until } }),
        ...measured.notes,
        ...rows.map((row) => sayRow(row, fills, isOneOfMany(row))),
        ...left,
        say('card.wins'),
        ...(pages.length > shown.length ? [say('card.too-many', { pages: pages.length })] : []),
      ],
      facts: [
        { name: 'sprayer', value: sprayer.name },
        { name: 'person', value: person.name },
        { name: 'output', ...figure(sayOutput(measured.output)) },
        { name: 'good_until', value: until },
        { name: 'lines', value: rows.length },
        { name: 'left_off', value: leftOff.length },
        ...rows.flatMap((row, at) => rowFacts(row, at + 1, fills)),
      ],
      files: shown.map((page, at): Attachment => {
        const place = { number: at + 1, of: shown.length, until }
        return {
          name: `truck-card-${place.number}.png`,
          alt: say('card.page', { page: place.number, pages: place.of, sprayer: sprayer.name }),
          from: { picture: 'truck-card', data: pageData(parts, page, place, tools) },
        }
      }),
      audience: 'person',
      safety: { about: ['measuring', 'mixing'] },
    },
  )
}

const figure = ({ value, unit }: { value: string; unit: string }) => ({ value: factValue(value), unit })

/** `line_1` with its product, then its highest amount at each filling: `half_1`, `gallon_1`, `full_1`. */
function rowFacts(row: CardRow, number: number, fills: readonly CardFill[]): Fact[] {
  return [
    { name: `line_${number}`, value: row.product, text: asTyped(row.line) },
    ...fills.flatMap(({ id }, at) => {
      const amount = row.cells[at]?.high
      return amount === null || amount === undefined ? [] : [{ name: `${id}_${number}`, ...figure(amount) }]
    }),
  ]
}
