import { z } from 'zod'
import { askFor } from '#src/conversation/ask-for.ts'
import type { Choice, Reply } from '#src/conversation/reply.ts'
import { reply } from '#src/conversation/reply.ts'
import type { Text } from '#src/conversation/text.ts'
import { asTyped, say } from '#src/conversation/text.ts'
import { addDays } from '#src/desk/clock.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { readRecordName, recordName } from '#src/record/number.ts'
import type { KeptFilter } from '#src/records/kept-filter.ts'
import { filterOf, filterOptions } from '#src/records/options.ts'
import { untilNow } from '#src/records/pages.ts'
import { Format, type PaperOrder, RECORDS_PAPER, Reader } from './order.ts'
import { piecesOf } from './pieces.ts'
import { sayTreated } from './say-treated.ts'

export const paperOptions = z.strictObject({
  for: Reader,
  format: Format.optional(),
  number: z
    .string()
    .min(1)
    .max(20)
    .optional()
    .meta({ aliases: ['record'] }),
  ...filterOptions,
})
export type PaperOptions = z.infer<typeof paperOptions>

/** Somebody who is treated was hardly ever exposed longer ago; a day may always be given. */
const TREATING_DAYS = 7

/** Orders a paper: who may have it, of which records, and what stands in the answer beside the file. */
export async function orderPaper(
  given: PaperOptions,
  tools: Tools,
  only: Pick<KeptFilter, 'noDay'> = {},
): Promise<Answer> {
  const { crew, store, isLead, today } = tools
  const reader = given.for
  if (reader !== 'treating' && !isLead) return refused(say('papers.lead-only'))
  const number = given.number === undefined ? undefined : readRecordName(given.number)
  if (number === null) return refused(say('records.number', { text: given.number ?? '' }))
  if (reader === 'customer' && given.site === undefined) return askSite(given, tools)
  const found = await filterOf(given, tools)
  if (!found.ok) return found.ask
  const filter = withDays(
    { ...found.value, ...only, ...(number === undefined ? {} : { number }) },
    reader,
    today,
  )
  const until = await untilNow(store)
  const months = await store.records.months(filter, until.number)
  const count = months.reduce((sum, one) => sum + one.count, 0)
  if (count === 0) return { reply: reply('question', say('records.none'), { audience: 'person' }) }
  const format = given.format ?? 'pdf'
  const order: PaperOrder = {
    crewId: crew.id,
    reader,
    format,
    filter,
    until,
    day: today,
    asked: askedInEnglish(filter, reader, given),
  }
  const pieces = piecesOf(months, filter)
  return {
    reply: await replyTo(order, { count, pieces }, tools),
    ...(pieces.length === 0 ? {} : { state: given }),
  }
}

interface Extent {
  readonly count: number
  readonly pieces: readonly Choice[]
}

async function replyTo(order: PaperOrder, { count, pieces }: Extent, tools: Tools): Promise<Reply> {
  const { reader, format, filter, day } = order
  const file = `records-${reader}-${day}.${format}`
  return reply('answer', say('papers.title', { count, reader: say(`papers.for.${reader}`) }), {
    lines: [
      ...(reader === 'treating' ? await sayTreated(filter, tools) : []),
      ...sayDays(filter),
      say(`papers.holds.${reader}`),
      ...(format === 'csv' ? [say('papers.csv-harmless')] : []),
      say('papers.split'),
      ...(pieces.length === 0 ? [] : [say('papers.pieces')]),
    ],
    choices: [...pieces],
    facts: [{ name: 'records', value: count, text: say('papers.count', { count }) }],
    files: [
      {
        name: file,
        alt: say('papers.alt', { file: { literal: file } }),
        // Plain data all through: what is left out is left out, never undefined.
        from: { paper: RECORDS_PAPER, data: order as never },
      },
    ],
    audience: 'person',
    safety: {
      about: ['records'],
      ...(reader === 'treating' ? { first: ['emergency.call-911', 'emergency.poison-help'] } : {}),
    },
  })
}

/** A customer's paper is about one property, so the property has to be named. */
async function askSite(given: PaperOptions, { store }: Tools): Promise<Answer> {
  const sites = await store.sites.list()
  return askFor(
    given,
    say('papers.which-site'),
    sites.map(({ name }) => ({ label: asTyped(name), set: { site: name } })),
    { audience: 'person' },
  )
}

/** Whoever treats somebody gets the last days, unless more is asked. */
function withDays(filter: KeptFilter, reader: Reader, today: string): KeptFilter {
  const isOpen =
    filter.noDay !== true &&
    filter.number === undefined &&
    filter.from === undefined &&
    filter.to === undefined
  return reader === 'treating' && isOpen ? { ...filter, from: addDays(today, -TREATING_DAYS) } : filter
}

function sayDays({ from, to }: KeptFilter): readonly Text[] {
  if (from !== undefined && to !== undefined)
    return [say('papers.between', { from: { day: from }, to: { day: to } })]
  if (from !== undefined) return [say('papers.from', { from: { day: from } })]
  return to === undefined ? [] : [say('papers.to', { to: { day: to } })]
}

/** What a paper says of its own extent. Names of people and places stand only where its reader sees them anyway. */
function askedInEnglish(filter: KeptFilter, reader: Reader, given: PaperOptions): string {
  const named = (name: string, value: string | undefined) => (value === undefined ? [] : [`${name} ${value}`])
  const parts = [
    ...(filter.number === undefined ? [] : [recordName(filter.number)]),
    ...(reader === 'treating' ? [] : named('site', given.site)),
    ...(reader === 'inspector' ? named('person', given.person) : []),
    ...named('product', filter.product),
    ...named('from', filter.from),
    ...named('to', filter.to),
    ...(filter.noDay === true ? ['day not recorded'] : []),
    ...(filter.complete === undefined ? [] : [filter.complete ? 'complete only' : 'not complete only']),
  ]
  return parts.length === 0 ? 'All records' : `Records: ${parts.join(', ')}`
}

const refused = (title: Text): Answer => ({ reply: reply('refusal', title, { audience: 'person' }) })
