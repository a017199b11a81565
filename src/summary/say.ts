import type { Fact, Reply } from '#src/conversation/reply.ts'
import { reply } from '#src/conversation/reply.ts'
import { factValue } from '#src/conversation/steps.ts'
import { literalText, say, type Text } from '#src/conversation/text.ts'
import { printHead } from '#src/record/chain.ts'
import { recordName } from '#src/record/number.ts'
import { sayOnHand } from '#src/stock/words.ts'
import type { Week } from './week.ts'

const MOST_PRODUCTS = 8
const MOST_NUMBERS = 10
const MOST_LOW = 5

/** The summary as a lead reads it: what was done, what is open, and the newest hash of the records. */
export function sayWeek(week: Week): Reply {
  const isOpen = openLines(week).length > 0
  return reply(
    isOpen ? 'heads-up' : 'answer',
    say('summary.title', { from: { day: week.from }, to: { day: week.to } }),
    {
      lines: [...doneLines(week), ...openLines(week), ...headLines(week)],
      facts: factsOf(week),
      audience: 'person',
      safety: { about: ['records'] },
    },
  )
}

function doneLines({ jobs, area, withoutArea, products }: Week): Text[] {
  return [
    say('summary.jobs', { jobs, area }),
    ...(withoutArea === 0 ? [] : [say('summary.without-area', { count: withoutArea })]),
    ...products
      .slice(0, MOST_PRODUCTS)
      .map(({ product, amount }) => say('summary.product', { product, amount })),
    ...(products.length > MOST_PRODUCTS
      ? [say('summary.more-products', { count: products.length - MOST_PRODUCTS })]
      : []),
  ]
}

function openLines(week: Week): Text[] {
  const { drafts, incomplete, late, incidents, low, overdue } = week
  return [
    ...(incidents === 0 ? [] : [say('summary.incidents', { count: incidents })]),
    ...(incomplete.length === 0
      ? []
      : [say('summary.incomplete', { count: incomplete.length, numbers: listed(incomplete) })]),
    ...(late.length === 0 ? [] : [say('summary.late', { count: late.length, numbers: listed(late) })]),
    ...(drafts.length === 0
      ? []
      : [
          say('summary.drafts', {
            count: drafts.reduce((sum, { count }) => sum + count, 0),
            names: { all: drafts.map(({ name }) => name) },
          }),
        ]),
    ...(overdue === 0 ? [] : [say('summary.overdue', { count: overdue })]),
    ...low.slice(0, MOST_LOW).map(sayOnHand),
  ]
}

function headLines({ head }: Week): Text[] {
  return head === null
    ? []
    : [say('summary.head', { head: literalText(printHead(head)) }), say('summary.keep-head')]
}

/** `R12, R14, and R15`; after ten the rest is left out. */
function listed(numbers: readonly number[]) {
  const shown = numbers.slice(0, MOST_NUMBERS).map(recordName)
  return { all: numbers.length > MOST_NUMBERS ? [...shown, { literal: '…' }] : shown }
}

function factsOf(week: Week): Fact[] {
  return [
    { name: 'jobs', value: week.jobs },
    { name: 'area', value: factValue(week.area.value), unit: week.area.unit },
    { name: 'incomplete', value: week.incomplete.length },
    { name: 'late', value: week.late.length },
    { name: 'drafts', value: week.drafts.reduce((sum, { count }) => sum + count, 0) },
    { name: 'incidents', value: week.incidents },
    { name: 'low', value: week.low.length },
    { name: 'overdue', value: week.overdue },
    ...(week.head === null ? [] : [{ name: 'head', value: printHead(week.head) }]),
  ]
}
