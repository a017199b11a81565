import { SET } from '#src/conversation/ask-for.ts'
import type { Choice } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { addDays, type Day, daysBetween } from '#src/label/day.ts'
import type { KeptFilter } from '#src/records/kept-filter.ts'

/** Records of a month, or of those whose day nobody wrote down. */
export interface MonthCount {
  readonly month: string | null
  readonly count: number
}

/** As many records as go into the files of one message, whatever their format; a piece of a paper is asked for above it. */
export const MOST_AT_ONCE = 1000

/** Step under which the records without a day are asked for. */
export const UNDATED = 'undated'

const MOST_PIECES = 24

interface Span {
  readonly from: Day
  readonly to: Day
  readonly label: Text
}

/**
 * Presses to the pieces of a paper that is too long for one message: its years, the months of one year, then parts and
 * days of one month. None where everything goes out at once, or where a single day is asked for.
 */
export function piecesOf(months: readonly MonthCount[], filter: KeptFilter): readonly Choice[] {
  const count = months.reduce((sum, one) => sum + one.count, 0)
  if (count <= MOST_AT_ONCE) return []
  const dated = months.flatMap(({ month }) => (month === null ? [] : [month]))
  const spans = spansOf(dated, filter).flatMap((span) => within(span, filter))
  const undated: Choice[] =
    dated.length > 0 && dated.length < months.length
      ? [{ label: say('papers.piece-undated'), to: { step: UNDATED }, repeat: true }]
      : []
  return [
    ...(spans.length < 2 && undated.length === 0 ? [] : spans.slice(0, MOST_PIECES)).map(
      ({ from, to, label }): Choice => ({ label, to: { step: SET, value: { from, to } }, repeat: true }),
    ),
    ...undated,
  ]
}

function spansOf(months: readonly string[], { from, to }: KeptFilter): readonly Span[] {
  const years = [...new Set(months.map((month) => month.slice(0, 4)))]
  if (years.length > 1) return years.map(yearSpan)
  const [only, ...more] = months
  if (only === undefined) return []
  if (more.length > 0) return months.map((month) => monthSpan(month))
  const whole = monthSpan(only)
  return daySpans(later(whole.from, from), earlier(whole.to, to))
}

const yearSpan = (year: string): Span => ({
  from: `${year}-01-01`,
  to: `${year}-12-31`,
  label: say('papers.piece', { piece: { literal: year } }),
})

function monthSpan(month: string): Span {
  const from = `${month}-01`
  const next = addDays(from, 31)
  return {
    from,
    to: addDays(`${next.slice(0, 7)}-01`, -1),
    label: say('papers.piece', { piece: { literal: month } }),
  }
}

/** A month in thirds; what is a third or less already, day by day. */
const THIRD_DAYS = 10

function daySpans(from: Day, to: Day): readonly Span[] {
  const days = daysBetween(from, to) + 1
  const step = days > THIRD_DAYS + 1 ? THIRD_DAYS : 1
  return Array.from({ length: Math.ceil(days / step) }, (_, at): Span => {
    const first = addDays(from, at * step)
    const last = earlier(addDays(first, step - 1), to)
    const isDay = first === last
    return {
      from: first,
      to: last,
      label: isDay
        ? say('papers.piece-day', { day: { day: first } })
        : say('papers.between', { from: { day: first }, to: { day: last } }),
    }
  })
}

/** A piece never reaches beyond what was asked. */
function within({ from, to, label }: Span, filter: KeptFilter): readonly Span[] {
  const span = { from: later(from, filter.from), to: earlier(to, filter.to), label }
  return span.from <= span.to ? [span] : []
}

const later = (a: Day, b: Day | undefined): Day => (b !== undefined && b > a ? b : a)
const earlier = (a: Day, b: Day | undefined): Day => (b !== undefined && b < a ? b : a)
