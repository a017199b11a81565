import { field, refill, textOf } from '#src/conversation/fields.ts'
import { type Form, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, FieldValue, Tools } from '#src/desk/command.ts'
import { readEntry } from '#src/label/book.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import type { RateLine } from '#src/label/rate-line.ts'
import { sayProblem } from '#src/label/words.ts'
import { canonicalJson } from '#src/record/canonical.ts'
import { readDay } from '#src/site/read-day.ts'
import type { BookEntry } from '#src/store/labels.ts'
import { labelField } from './entry-forms.ts'
import { keptCard, knownTaxa } from './finish-entry.ts'
import { readSpan } from './read-forms.ts'
import { readWaits, waitLimits, waitsForm } from './waits.ts'

type Fields = Readonly<Record<string, FieldValue>>

/** One rate line as it stands, to be typed over from the new label. */
export function reviseForm(entry: LabelEntry, line: RateLine, typed: Fields = {}): Form {
  const span = ({ low, high }: RateLine['rates'][number]) =>
    low === undefined ? high : `${spanStart(low)} to ${high}`
  return {
    title: say('book.form.title-revise'),
    open: say('common.fill-in'),
    fields: refill(
      [
        field('book.form', 'line', { kind: 'long-text', required: true, value: line.line, maxLength: 900 }),
        field('book.form', 'rates', {
          required: true,
          hint: true,
          value: line.rates.map(span).join('; '),
          maxLength: 300,
        }),
        field('book.form', 'year', {
          hint: true,
          value: (entry.limits.perYear ?? []).flatMap(({ rates }) => rates).join('; '),
          maxLength: 200,
        }),
        field('book.form', 'interval', {
          hint: true,
          value: String(entry.limits.interval?.[0]?.days ?? ''),
          maxLength: 10,
        }),
        labelField(entry.label),
      ],
      typed,
    ),
    to: { step: 'revise' },
  }
}

/** The number alone: the unit stands behind the upper end. */
function spanStart(low: string): string {
  return /^[\d.,/ ]+/.exec(low)?.[0].trim() ?? low
}

/** Keeps what has to wait after a treatment as a new revision; the rates stay as they are. */
export async function waitsRevised(
  given: object,
  known: BookEntry,
  fields: Fields,
  tools: Tools,
): Promise<Answer> {
  const body = known.live?.body
  if (body === undefined) return { reply: reply('refusal', say('book.retype.gone'), { audience: 'person' }) }
  const label = readLabel(fields, tools)
  const waits = readWaits(fields)
  const others = Object.entries(body.limits).filter(([name]) => !waitLimits.some((wait) => wait === name))
  const entry = readEntry(
    {
      ...body,
      label: label.label,
      limits: { ...Object.fromEntries(others), ...(waits.ok ? pagesKept(body, waits.limits) : {}) },
    },
    knownTaxa(),
  )
  const problems = [...label.problems, ...(waits.ok ? [] : waits.problems)]
  if (!entry.ok || problems.length > 0)
    return {
      reply: reply('question', say('common.not-yet'), {
        lines: [...problems, ...(entry.ok ? [] : entry.error.map(sayProblem))],
        form: { ...waitsForm(body, fields), open: say('common.correct-it') },
        audience: 'person',
      }),
      state: given,
    }
  return { reply: await keptCard(entry.value, tools) }
}

/** What stands as it stood keeps the label's words and page. */
function pagesKept({ limits }: LabelEntry, read: Readonly<Record<string, unknown>>): Record<string, unknown> {
  const figures = (limit: unknown) => {
    const { line: _line, page: _page, ...rest } = (limit ?? {}) as Record<string, unknown>
    return canonicalJson(rest)
  }
  const before: Readonly<Record<string, unknown>> = limits
  return Object.fromEntries(
    Object.entries(read).map(([name, limit]) => [
      name,
      figures(before[name]) === figures(limit) ? before[name] : limit,
    ]),
  )
}

function readLabel(fields: Fields, tools: Tools) {
  const label = /^(.*?)[\s,]+(\S+)$/.exec(textOf(fields, 'label'))
  const date = readDay(label?.[2] ?? '', tools.today)
  const problems: Text[] =
    label?.[1] === undefined || date === null
      ? [say('book.problem.label', { text: textOf(fields, 'label') })]
      : []
  return { label: { version: label?.[1] ?? '', date: date ?? tools.today }, problems }
}

/** Keeps the changed entry as a new revision, or says what does not fit and shows the form again. */
export async function revised(
  given: { readonly line?: string | undefined },
  known: BookEntry,
  fields: Fields,
  tools: Tools,
): Promise<Answer> {
  const body = known.live?.body
  const line = body?.rateLines.find(({ id }) => id === given.line)
  if (body === undefined || line === undefined)
    return { reply: reply('refusal', say('book.retype.gone'), { audience: 'person' }) }
  const { label, problems } = readLabel(fields, tools)
  const entry = readEntry(
    {
      ...body,
      label,
      rateLines: body.rateLines.map((one) =>
        one.id === line.id
          ? {
              ...one,
              line: textOf(fields, 'line'),
              rates: textOf(fields, 'rates')
                .split(/\s*;\s*/)
                .map(readSpan),
            }
          : one,
      ),
      limits: limitsOf(body, fields),
    },
    knownTaxa(),
  )
  if (!entry.ok || problems.length > 0)
    return {
      reply: reply('question', say('common.not-yet'), {
        lines: [...problems, ...(entry.ok ? [] : entry.error.map(sayProblem))],
        form: { ...reviseForm(body, line, fields), open: say('common.correct-it') },
        audience: 'person',
      }),
      state: given,
    }
  return { reply: await keptCard(entry.value, tools) }
}

function limitsOf(body: LabelEntry, fields: Fields): unknown {
  const { perYear, interval, ...others } = body.limits
  const year = textOf(fields, 'year')
  const days = textOf(fields, 'interval')
  const [first = { period: 'calendar', counts: 'product' }, ...moreYears] = perYear ?? []
  const [wait = { counts: 'product' }, ...moreWaits] = interval ?? []
  return {
    ...others,
    ...(year === '' ? {} : { perYear: [{ ...first, rates: year.split(/\s*;\s*/) }, ...moreYears] }),
    ...(days === '' ? {} : { interval: [{ ...wait, days: Number(days) }, ...moreWaits] }),
  }
}
