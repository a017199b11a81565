interface Moment {
  readonly atMs: number
  readonly zone: string
  readonly style: 'date' | 'time' | 'date-time'
}

const DATE = { weekday: 'short', year: 'numeric', month: 'short', day: 'numeric' } as const
const TIME = { hour: 'numeric', minute: '2-digit' } as const

const formats = new Map<string, Intl.DateTimeFormat>()

/** Building a format costs a thousand times more than using it. */
function formatFor(locale: string, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = `${locale} ${JSON.stringify(options)}`
  const known = formats.get(key)
  if (known !== undefined) return known
  const format = new Intl.DateTimeFormat(locale, options)
  formats.set(key, format)
  return format
}

/** ICU puts narrow and no-break spaces into times; phones of every age show a plain one. */
function withPlainSpaces(text: string): string {
  return text.replace(/[\u202f\u00a0]/g, ' ')
}

/** A moment in a time zone (IANA name): `Wed, Jun 3, 2026`, `2:05 PM` or both. */
export function printMoment(moment: Moment, locale: string): string {
  const parts = { date: DATE, time: TIME, 'date-time': { ...DATE, ...TIME } }[moment.style]
  return withPlainSpaces(formatFor(locale, { ...parts, timeZone: moment.zone }).format(moment.atMs))
}

/** A plain date, YYYY-MM-DD, which has no zone. What is no date is shown as it came. */
export function printDay(day: string, locale: string): string {
  const atMs = /^\d{4}-\d{2}-\d{2}$/.test(day) ? Date.parse(`${day}T00:00:00Z`) : Number.NaN
  if (Number.isNaN(atMs)) return day
  return withPlainSpaces(formatFor(locale, { ...DATE, timeZone: 'UTC' }).format(atMs))
}

/** `a, b, and c`, `a, b, or c`, or one a line. */
export function printAll(parts: readonly string[], join: 'and' | 'or' | 'lines', locale: string): string {
  if (join === 'lines') return parts.join('\n')
  return listFor(locale, join === 'and' ? 'conjunction' : 'disjunction').format(parts)
}

const lists = new Map<string, Intl.ListFormat>()

function listFor(locale: string, type: 'conjunction' | 'disjunction'): Intl.ListFormat {
  const key = `${locale} ${type}`
  const known = lists.get(key)
  if (known !== undefined) return known
  const made = new Intl.ListFormat(locale, { type, style: 'long' })
  lists.set(key, made)
  return made
}
