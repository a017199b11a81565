import type { Round } from '#src/recheck/workdays.ts'
import { readDay } from '#src/site/read-day.ts'

/** First letters of the days of the week, Monday first, in English and Spanish. */
const WEEKDAYS = [
  ['mon', 'lun'],
  ['tue', 'mar'],
  ['wed', 'mie', 'mié'],
  ['thu', 'jue'],
  ['fri', 'vie'],
  ['sat', 'sab', 'sáb'],
  ['sun', 'dom'],
]

/** `mon-fri`, `mon, wed, sat`, `lun a vie`: ISO days of the week, Monday being 1; null for anything else. */
export function readWeekdays(text: string): number[] | null {
  const days = new Set<number>()
  for (const part of text.toLowerCase().split(/[,;]+|\s+(?:and|y)\s+/)) {
    const [from, to, ...more] = part
      .trim()
      .split(/\s*(?:-|–|\bto\b|\ba\b)\s*/)
      .map(weekday)
    if (from == null || to === null || more.length > 0) return null
    const last = to ?? from
    for (let day = from; ; day = (day % 7) + 1) {
      days.add(day)
      if (day === last) break
    }
  }
  return [...days].sort()
}

function weekday(name: string): number | null {
  const at = WEEKDAYS.findIndex((starts) => starts.some((start) => name.trim().startsWith(start)))
  return at < 0 ? null : at + 1
}

/** `7:00 to 17:00`, `7-17`, `7 am to 4:30 pm`: the hours of a working day, told on a 24-hour clock; null for anything else. */
export function readHours(text: string): { readonly startsAt: string; readonly endsAt: string } | null {
  // `a. m.` is joined first, since a lone `a` parts the hours in Spanish.
  const joined = text.replace(/([ap])\.?\s*m\b\.?/gi, '$1m')
  const [from, to, ...more] = joined.split(/\s*(?:-|–|\bto\b|\ba\b)\s*/i).map(readClock)
  if (from == null || to == null || more.length > 0 || from >= to) return null
  return { startsAt: from, endsAt: to }
}

function readClock(text: string): string | null {
  const found = /^(\d{1,2})(?::([0-5]\d))?\s*(?:([ap])m)?$/i.exec(text.trim())
  if (found === null) return null
  const [, typed, minutes = '00', half] = found
  const hour = half === undefined ? Number(typed) : hourOfHalf(Number(typed), half.toLowerCase() === 'p')
  return hour === null || hour > 23 ? null : `${String(hour).padStart(2, '0')}:${minutes}`
}

/** An hour of a 12-hour clock, noon and midnight being 12; null for one that it does not have. */
function hourOfHalf(hour: number, isAfterNoon: boolean): number | null {
  return hour < 1 || hour > 12 ? null : (hour % 12) + (isAfterNoon ? 12 : 0)
}

/** `2026-07-03; dec 25`: plain days, the coming ones where no year is told; null when one of them is none. */
function readDays(text: string, today: string): string[] | null {
  const days = text
    .split(/[;,]+|\s+(?=\d{4}-)/)
    .filter((one) => one.trim() !== '')
    .map((one) => readDay(one.trim(), today, 'future'))
  return days.every((day) => day !== null) ? [...new Set(days)].sort() : null
}

const EVERY =
  /^(?:every|cada)\s+(?:(\d{1,3})\s*)?(day|days|d[ií]as?|week|weeks|semanas?)\s+(?:from|since|desde|a partir del?)\s+(?:el\s+)?(.+)$/i

/**
 * `every 14 days from 2026-05-04`, `every 2 weeks from may 4`, or listed days; `none` for no round; undefined for
 * anything else.
 */
export function readRound(text: string, today: string): Round | null | undefined {
  if (isNone(text)) return null
  const every = EVERY.exec(text.trim())
  if (every !== null) {
    const [, count = '1', unit = '', begins = ''] = every
    const days = Number(count) * (/^(w|s)/i.test(unit) ? 7 : 1)
    const from = readDay(begins, today)
    return from !== null && days >= 1 && days <= 366 ? { kind: 'every', days, from } : undefined
  }
  const listed = readDays(text, today)
  return listed === null || listed.length === 0 ? undefined : { kind: 'on', days: listed }
}

export const isNone = (text: string) => /^(none|no|ninguno|ninguna|sin)$/i.test(text.trim())

/** `7 to 14`, `7-14`: days after the application, both in; null for anything else. */
export function readSpan(text: string): { readonly fromDay: number; readonly toDay: number } | null {
  const found = /^(\d{1,3})\s*(?:-|–|to|a|\s)\s*(\d{1,3})$/i.exec(text.trim())
  const [fromDay, toDay] = [Number(found?.[1]), Number(found?.[2])]
  return found === null || fromDay < 1 || toDay < fromDay || toDay > 400 ? null : { fromDay, toDay }
}
