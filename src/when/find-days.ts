import { addDays } from '#src/label/day.ts'
import { dayOf, dayWithoutYear, weekdayOn } from './calendar.ts'
import type { Part } from './clock.ts'
import type { Reading } from './reading.ts'
import { COUNT, countOf, MONTH, monthOf, WEEKDAY, weekdayOf } from './words.ts'

const HALF_HOUR = 30
const HOUR = 60

/** Takes every day out of the text. The order matters: longer phrases come before the words they are made of. */
export function findDays(reading: Reading): void {
  findWritten(reading)
  findCounted(reading)
  findNamed(reading)
  findMonths(reading)
  findWeekdays(reading)
}

/** `2026-11-26`, `11/26/2026`, `11/26`, `11-26-26`. */
function findWritten(reading: Reading): void {
  reading.take(/(?<![\d/-])(\d{4})[-/](\d{1,2})[-/](\d{1,2})(?:t(?=\d)|(?![\d/-]))/g, ([year, month, day]) =>
    reading.addDay(dayOf(Number(year), Number(month), Number(day))),
  )
  reading.take(/(?<![\d/-])(\d{1,2})([/-])(\d{1,2})\2(\d{4}|\d{2})(?![\d/-])/g, ([first, , second, year]) =>
    addWritten(reading, Number(first), Number(second), fullYear(year)),
  )
  reading.take(/(?<![\d/-])(\d{1,2})\/(\d{1,2})(?![\d/-])/g, ([first, second]) =>
    addWritten(reading, Number(first), Number(second)),
  )
}

function fullYear(year = ''): number {
  return year.length === 2 ? 2000 + Number(year) : Number(year)
}

/** The month comes first, as on US papers; where it cannot, the day. Who reads Spanish may mean either. */
function addWritten(reading: Reading, first: number, second: number, year?: number): void {
  const { today, settings } = reading
  const toward = settings.toward ?? 'near'
  const real = (month: number, day: number) =>
    year === undefined ? dayWithoutYear(month, day, today, toward) : dayOf(year, month, day)
  const monthFirst = real(first, second)
  const dayFirst = real(second, first)
  const canBeBoth = settings.language.startsWith('es') && monthFirst !== null && dayFirst !== null
  const both = canBeBoth && monthFirst !== dayFirst ? ([monthFirst, dayFirst] as const) : undefined
  const fitting = both?.filter((day) => fits(day, today, toward)) ?? []
  if (both === undefined) reading.addDay(monthFirst ?? dayFirst)
  else if (fitting.length === 1) reading.addDay(fitting[0] ?? null)
  else reading.trouble({ kind: 'ambiguous-day', text: reading.text, days: both })
}

function fits(day: string, today: string, toward: string): boolean {
  if (toward === 'past') return day <= today
  return toward === 'future' ? day >= today : true
}

/** `2 hours ago`, `hace media hora`, `3 days ago`, `hace una semana`, `in 10 days`. */
function findCounted(reading: Reading): void {
  reading.take('half an hour ago|hace media hora', () => reading.addFromNow(-HALF_HOUR))
  reading.take(`${COUNT} (hour|hr|minute|min)s? ago`, ([count = '', unit = '']) =>
    reading.addFromNow(-countOf(count) * (unit.startsWith('h') ? HOUR : 1)),
  )
  reading.take(`hace ${COUNT} (hora|minuto|min)s?( y media)?`, ([count = '', unit = '', half]) =>
    reading.addFromNow(-countOf(count) * (unit === 'hora' ? HOUR : 1) - (half !== undefined ? HALF_HOUR : 0)),
  )
  const addDaysFromToday = (count: string, unit: string, sign: 1 | -1) =>
    reading.addDay(addDays(reading.today, sign * countOf(count) * (/^(week|semana)/.test(unit) ? 7 : 1)))
  reading.take(`${COUNT} (day|week)s? ago`, ([count = '', unit = '']) => addDaysFromToday(count, unit, -1))
  reading.take(`hace ${COUNT} (dia|semana)s?`, ([count = '', unit = '']) => addDaysFromToday(count, unit, -1))
  reading.take(`(?:in|en|dentro de) ${COUNT} (day|week|dia|semana)s?`, ([count = '', unit = '']) =>
    addDaysFromToday(count, unit, 1),
  )
}

const PARTS: readonly (readonly [string, Part])[] = [
  ['madrugada', 'early'],
  ['morning|manana', 'morning'],
  ['afternoon|tardecita|tarde', 'afternoon'],
  ['evening', 'evening'],
  ['night|noche', 'night'],
]

/** Days by their names, and parts of the day. `mañana` is the morning after `en la`, else tomorrow. */
function findNamed(reading: Reading): void {
  const on = (days: number) => reading.addDay(addDays(reading.today, days))
  reading.take('(?:the )?day before yesterday|antes de ayer|anteayer|antier|anteantier|antes de anoche', () =>
    on(-2),
  )
  reading.take('(?:the )?day after tomorrow|pasado manana', () => on(2))
  reading.take('last night|anoche', () => {
    on(-1)
    reading.part = 'night'
  })
  reading.take('tonight', () => {
    on(0)
    reading.part = 'night'
  })
  for (const [names, part] of PARTS)
    reading.take(`(this|esta) (?:${names})`, () => {
      on(0)
      reading.part = part
    })
  for (const [names, part] of PARTS)
    reading.take(`(?:in the|at|en la|por la|de la|a la) (?:${names})`, () => {
      reading.part = part
    })
  reading.take('yesterday|ayer', () => on(-1))
  reading.take('today|hoy', () => on(0))
  reading.take('tomorrow|manana', () => on(1))
  reading.take('right now|just now|now|ahora mismo|ahorita|ahora', () => reading.addFromNow(0))
  for (const [names, part] of PARTS)
    reading.take(names, () => {
      reading.part = part
    })
}

const YEAR = '(?:,? (?:del? )?((?:19|20|21)\\d\\d)\\b)?'

/** `26 nov`, `26 de noviembre de 2026`, `Nov 26th, 2026`. The day before the month is tried first: `mar, 3 nov`. */
function findMonths(reading: Reading): void {
  const { today, settings } = reading
  const add = (month = '', day = '', year?: string) =>
    reading.addDay(
      year === undefined
        ? dayWithoutYear(monthOf(month), Number(day), today, settings.toward ?? 'near')
        : dayOf(Number(year), monthOf(month), Number(day)),
    )
  reading.take(`(\\d{1,2})(?:st|nd|rd|th|ro|o)? (?:of |de )?${MONTH}${YEAR}`, ([day, month, year]) =>
    add(month, day, year),
  )
  reading.take(
    `${MONTH} (\\d{1,2})(?:st|nd|rd|th)?(?![:\\d])(?! ?[ap]\\.? ?m)${YEAR}`,
    ([month, day, year]) => add(month, day, year),
  )
}

/** `monday`, `last Friday`, `el lunes pasado`, `próximo jueves`. Beside a date it only has to agree with it. */
function findWeekdays(reading: Reading): void {
  const hasDay = reading.days.size > 0
  reading.take(
    `(last |past |pasado |next |proximo )?${WEEKDAY}( pasado| proximo| que viene| que entra)?`,
    ([before = '', name = '', after = '']) => {
      const weekday = weekdayOf(name)
      const side = `${before}${after}`
      if (hasDay && side === '') reading.weekdays.add(weekday)
      else addWeekday(reading, weekday, side.trim())
    },
  )
}

function addWeekday(reading: Reading, weekday: number, side: string): void {
  const { today, settings } = reading
  const ahead = (weekday - weekdayOn(today) + 7) % 7
  const next = addDays(today, ahead === 0 ? 7 : ahead)
  const last = addDays(next, ahead === 0 ? -14 : -7)
  const isLast = /^(last|past|pasado)/.test(side)
  if (isLast) reading.addDay(last)
  else if (side !== '') reading.addDay(next)
  else if (ahead === 0) reading.addDay(today)
  else if (settings.toward === 'past') reading.addDay(last)
  else if (settings.toward === 'future') reading.addDay(next)
  else reading.trouble({ kind: 'ambiguous-week', text: reading.text, days: [last, next] })
}
