import { isDay } from '#src/label/day.ts'
import type { Round } from '#src/recheck/workdays.ts'

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

/** `7:00 to 17:00`, `7-17`: the hours of a working day on a 24-hour clock; null for anything else. */
export function readHours(text: string): { readonly startsAt: string; readonly endsAt: string } | null {
  const [from, to, ...more] = text.split(/\s*(?:-|–|\bto\b|\ba\b)\s*/i).map(readClock)
  if (from == null || to == null || more.length > 0 || from >= to) return null
  return { startsAt: from, endsAt: to }
}

function readClock(text: string): string | null {
  const found = /^(\d{1,2})(?::([0-5]\d))?$/.exec(text.trim())
  const hour = Number(found?.[1])
  return found === null || hour > 23 ? null : `${String(hour).padStart(2, '0')}:${found[2] ?? '00'}`
}

/** `2026-07-03; 2026-12-25`: plain days; null when one of them is none. `none` is an empty list. */
export function readDays(text: string): string[] | null {
  if (isNone(text)) return []
  const days = text.split(/[;,\s]+/).filter((one) => one !== '')
  return days.every(isDay) ? [...new Set(days)].sort() : null
}

/** `every 14 days from 2026-05-04`, or listed days; `none` for no round; undefined for anything else. */
export function readRound(text: string): Round | null | undefined {
  if (isNone(text)) return null
  const every = /^\D*(\d{1,3})\D+(\d{4}-\d{2}-\d{2})\D*$/.exec(text)
  const [days, from = ''] = [Number(every?.[1]), every?.[2]]
  if (every !== null && days >= 1 && days <= 366 && isDay(from)) return { kind: 'every', days, from }
  const listed = readDays(text)
  return listed === null || listed.length === 0 ? undefined : { kind: 'on', days: listed }
}

export const isNone = (text: string) => /^(none|no|ninguno|ninguna|sin)$/i.test(text.trim())

/** `7 to 14`, `7-14`: days after the application, both in; null for anything else. */
export function readSpan(text: string): { readonly fromDay: number; readonly toDay: number } | null {
  const found = /^(\d{1,3})\s*(?:-|–|to|a|\s)\s*(\d{1,3})$/i.exec(text.trim())
  const [fromDay, toDay] = [Number(found?.[1]), Number(found?.[2])]
  return found === null || fromDay < 1 || toDay < fromDay || toDay > 400 ? null : { fromDay, toDay }
}
