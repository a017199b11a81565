import { field, refill, textOf } from '#src/conversation/fields.ts'
import type { Form } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import type { Limits } from '#src/label/limits.ts'
import { type Fields, labelField } from './entry-forms.ts'

/** What has to wait after a treatment, each as it is typed. */
const waits = ['mowing', 'water', 'keep_off_time', 'planting'] as const
type Wait = (typeof waits)[number]

/** The limits that this form fills in; the others of an entry stay as they are. */
export const waitLimits = [
  'mowing',
  'watering',
  'rainFree',
  'keepOff',
  'seedAfter',
  'sodAfter',
] as const satisfies readonly (keyof Limits)[]

/** How long mowing, water, people and seed have to wait, typed from the label; with the label's version for a change. */
export function waitsForm(entry: LabelEntry | null, typed: Fields = {}): Form {
  const values = entry === null ? null : shown(entry.limits)
  return {
    title: say('book.form.title-waits'),
    open: say('common.fill-in'),
    fields: refill(
      [
        ...waits.map((name) =>
          field('book.form', name, { hint: true, maxLength: 200, value: values?.[name] ?? '' }),
        ),
        ...(entry === null ? [] : [labelField(entry.label)]),
      ],
      typed,
    ),
    to: { step: 'waits' },
  }
}

/** The same figures as the form reads them back. */
function shown({ mowing, watering, rainFree, keepOff, seedAfter, sodAfter }: Limits): Record<Wait, string> {
  const all = (...parts: (string | null)[]) => parts.filter((part) => part !== null).join('; ')
  const hours = watering?.hours === undefined ? '' : ` ${watering.hours} hours`
  return {
    mowing: all(
      mowing?.daysBefore === undefined ? null : `${mowing.daysBefore} days before`,
      mowing?.daysAfter === undefined ? null : `${mowing.daysAfter} days after`,
    ),
    water: all(
      watering === undefined
        ? null
        : watering.rule === 'hold off'
          ? `no water${hours}`
          : `water in${hours === '' ? '' : ` within${hours}`}`,
      rainFree === undefined ? null : `rain-free ${rainFree.hours} hours`,
    ),
    keep_off_time: all(
      keepOff?.hours === undefined ? null : `${keepOff.hours} hours`,
      keepOff?.untilDry === undefined ? null : 'until dry',
    ),
    planting: all(
      seedAfter === undefined ? null : `seed ${seedAfter.days} days`,
      sodAfter === undefined ? null : `sod ${sodAfter.days} days`,
    ),
  }
}

export type ReadWaits =
  | { readonly ok: true; readonly limits: Readonly<Partial<Record<(typeof waitLimits)[number], unknown>>> }
  | { readonly ok: false; readonly problems: readonly Text[] }

type Read = Readonly<Record<string, unknown>> | null

/** What was typed as limits of a label, each with its words as they were typed. */
export function readWaits(fields: Fields): ReadWaits {
  const limits: Record<string, Record<string, unknown>> = {}
  const problems: Text[] = []
  for (const name of waits)
    for (const piece of textOf(fields, name)
      .split(/\s*[;,\n]\s*/)
      .filter((one) => one !== '')) {
      const found = READERS[name](piece)
      if (found === null)
        problems.push(say('book.problem.wait', { text: piece, example: say(EXAMPLES[name]) }))
      else
        for (const [limit, part] of Object.entries(found))
          limits[limit] = { ...limits[limit], ...(part as object) }
    }
  return problems.length > 0 ? { ok: false, problems } : { ok: true, limits }
}

const EXAMPLES: Readonly<Record<Wait, string>> = {
  mowing: 'book.form.mowing-hint',
  water: 'book.form.water-hint',
  keep_off_time: 'book.form.keep_off_time-hint',
  planting: 'book.form.planting-hint',
}

const DAYS = /(\d{1,4})\s*(?:days?|d[ií]as?)\b/i
const WEEKS = /(\d{1,3})\s*(?:weeks?|semanas?)\b/i
const HOURS = /(\d{1,3}(?:[.,]\d)?)\s*(?:hours?|hrs?|h|horas?)\b/i

const READERS: Readonly<Record<Wait, (piece: string) => Read>> = {
  mowing(piece) {
    const days = daysIn(piece)
    if (days === null) return null
    if (/\b(before|antes)\b/i.test(piece)) return { mowing: { daysBefore: days } }
    return /\b(after|despu[eé]s)/i.test(piece) ? { mowing: { daysAfter: days } } : null
  },
  water(piece) {
    const hours = hoursIn(piece)
    if (/\b(rain|lluvia)/i.test(piece)) return hours === null ? null : { rainFree: { hours, line: piece } }
    const rule = /\b(no|sin|hold off)\b/i.test(piece) ? 'hold off' : 'water in'
    if (!/\b(water|rieg|regar|riegue)/i.test(piece)) return null
    if (rule === 'hold off' && hours === null) return null
    return { watering: { rule, ...(hours === null ? {} : { hours }), line: piece } }
  },
  keep_off_time(piece) {
    const hours = hoursIn(piece) ?? (daysIn(piece) === null ? null : (daysIn(piece) ?? 0) * 24)
    const isDry = /\b(dry|dried|seque|seco)/i.test(piece)
    if (hours === null && !isDry) return null
    return { keepOff: { ...(hours === null ? {} : { hours }), ...(isDry ? { untilDry: true } : {}) } }
  },
  planting(piece) {
    const days = daysIn(piece)
    if (days === null) return null
    if (/\b(sod|c[eé]sped|tepes?)/i.test(piece)) return { sodAfter: { days, line: piece } }
    return /\b(seed|semilla|siembra|sembrar)/i.test(piece) ? { seedAfter: { days, line: piece } } : null
  },
}

function daysIn(piece: string): number | null {
  const days = DAYS.exec(piece)?.[1]
  if (days !== undefined) return Number(days)
  const weeks = WEEKS.exec(piece)?.[1]
  return weeks === undefined ? null : Number(weeks) * 7
}

function hoursIn(piece: string): number | null {
  const hours = HOURS.exec(piece)?.[1]
  return hours === undefined ? null : Number(hours.replace(',', '.'))
}

/** What an entry says has to wait, as the crew reads it. */
export function waitLines(limits: Limits): Text[] {
  const { mowing, watering, rainFree, keepOff, seedAfter, sodAfter } = limits
  return [
    ...(mowing?.daysBefore === undefined ? [] : [say('book.card.mow-before', { days: mowing.daysBefore })]),
    ...(mowing?.daysAfter === undefined ? [] : [say('book.card.mow-after', { days: mowing.daysAfter })]),
    ...(watering === undefined
      ? []
      : [
          say(watering.rule === 'hold off' ? 'book.card.no-water' : 'book.card.water-in', {
            hours: watering.hours ?? 0,
          }),
        ]),
    ...(rainFree === undefined ? [] : [say('book.card.rain-free', { hours: rainFree.hours })]),
    ...(keepOff?.hours === undefined ? [] : [say('book.card.keep-off', { hours: keepOff.hours })]),
    ...(keepOff?.untilDry === true ? [say('notices.until-dry')] : []),
    ...(seedAfter === undefined ? [] : [say('book.card.seed', { days: seedAfter.days })]),
    ...(sodAfter === undefined ? [] : [say('book.card.sod', { days: sodAfter.days })]),
  ]
}
