import { addDays } from '#src/desk/clock.ts'

/** A plain day as people type it: `2026-05-04`, `5/4/2026`, `5/4`, `today`, `yesterday`, `hoy`, `ayer`. */
export function readDay(text: string, today: string): string | null {
  const word = text.trim().toLowerCase()
  if (word === 'today' || word === 'hoy') return today
  if (word === 'yesterday' || word === 'ayer') return addDays(today, -1)
  const iso = /^(\d{4})-(\d{1,2})-(\d{1,2})$/.exec(word)
  if (iso !== null) return realDay(iso[1], iso[2], iso[3])
  const us = /^(\d{1,2})\/(\d{1,2})(?:\/(\d{4}))?$/.exec(word)
  return us === null ? null : realDay(us[3] ?? today.slice(0, 4), us[1], us[2])
}

function realDay(year = '', month = '', day = ''): string | null {
  const text = `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`
  const moment = new Date(`${text}T00:00:00Z`)
  return Number.isNaN(moment.getTime()) || moment.toISOString().slice(0, 10) !== text ? null : text
}
