import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { addDays } from '#src/label/day.ts'
import type { Toward } from '#src/when/calendar.ts'
import type { WhenProblem } from '#src/when/problem.ts'
import { readWhen } from '#src/when/read-when.ts'
import { whenTrouble } from '#src/when/trouble.ts'
import { loadWords } from '#src/words/load.ts'
import { printDay, printMoment } from '#src/words/moment.ts'
import { speak } from '#src/words/speak.ts'

// 2026-11-27 is a Friday; 10:20 in the morning.
const now = { day: '2026-11-27', minutes: 10 * 60 + 20 }

const read = (text: string, language = 'en', toward?: Toward) => {
  const result = readWhen(text, { now, language, ...(toward === undefined ? {} : { toward }) })
  if (!result.ok) return result.error.kind
  const { day = '', minutes } = result.value
  if (minutes === undefined) return day
  const clock = `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`
  return `${day} ${clock}`.trim()
}

describe('a day and a time', () => {
  test.each([
    ['yesterday 3 pm', '2026-11-26 15:00'],
    ['3pm yesterday', '2026-11-26 15:00'],
    ['Yesterday at 3:15 PM', '2026-11-26 15:15'],
    ['today 7:30', '2026-11-27 07:30'],
    ['Nov 26, 7:30 a.m.', '2026-11-26 07:30'],
    ['11/26 7:30am', '2026-11-26 07:30'],
    ['11/26/2026 15:30', '2026-11-26 15:30'],
    ['2026-11-26T07:30', '2026-11-26 07:30'],
    ['2026-11-26 0730', '2026-11-26 07:30'],
    ['last monday at noon', '2026-11-23 12:00'],
    ['yesterday at 3 in the afternoon', '2026-11-26 15:00'],
    ['this morning at 7', '2026-11-27 07:00'],
    ['last night at 9', '2026-11-26 21:00'],
    ['now', '2026-11-27 10:20'],
    ['2 hours ago', '2026-11-27 08:20'],
    ['half an hour ago', '2026-11-27 09:50'],
    ['11 hours ago', '2026-11-26 23:20'],
    ['half past 3 pm yesterday', '2026-11-26 15:30'],
    ['quarter to 1 pm today', '2026-11-27 12:45'],
    ['today 12:05 am', '2026-11-27 00:05'],
    ['today 12:05 pm', '2026-11-27 12:05'],
    ['today 03:15', '2026-11-27 03:15'],
    ['today 1530 hrs', '2026-11-27 15:30'],
    ['nov 26 3 pm', '2026-11-26 15:00'],
  ])('%s', (text, expected) => {
    expect(read(text)).toBe(expected)
    expect(read(text, 'es')).toBe(expected)
  })

  test.each([
    ['ayer 3 pm', '2026-11-26 15:00'],
    ['ayer a las 3 de la tarde', '2026-11-26 15:00'],
    ['ayer a las tres de la tarde', '2026-11-26 15:00'],
    ['hoy a las 7:30', '2026-11-27 07:30'],
    ['hoy a las 7 de la mañana', '2026-11-27 07:00'],
    ['ayer en la mañana a las 8', '2026-11-26 08:00'],
    ['anteayer 15:15', '2026-11-25 15:15'],
    ['antier a mediodía', '2026-11-25 12:00'],
    ['el lunes pasado a las 3 y media p. m.', '2026-11-23 15:30'],
    ['26 de noviembre de 2026 a las 7.30', '2026-11-26 07:30'],
    ['26 nov 3:15 p.m.', '2026-11-26 15:15'],
    ['anoche a las 9', '2026-11-26 21:00'],
    ['esta mañana 7:30', '2026-11-27 07:30'],
    ['hace 2 horas', '2026-11-27 08:20'],
    ['hace media hora', '2026-11-27 09:50'],
    ['hace una hora y media', '2026-11-27 08:50'],
    ['ahorita', '2026-11-27 10:20'],
    ['hoy a la una de la tarde', '2026-11-27 13:00'],
    ['hoy un cuarto para las 8 de la mañana', '2026-11-27 07:45'],
    ['mañana en la mañana a las 7', '2026-11-28 07:00'],
  ])('%s', (text, expected) => {
    expect(read(text, 'es')).toBe(expected)
    expect(read(text)).toBe(expected)
  })
})

test.each([
  ['today', '2026-11-27'],
  ['yesterday morning', '2026-11-26'],
  ['ayer por la tarde', '2026-11-26'],
  ['day before yesterday', '2026-11-25'],
  ['antes de ayer', '2026-11-25'],
  ['tomorrow', '2026-11-28'],
  ['mañana', '2026-11-28'],
  ['pasado mañana', '2026-11-29'],
  ['3 days ago', '2026-11-24'],
  ['hace tres días', '2026-11-24'],
  ['a week ago', '2026-11-20'],
  ['hace 2 semanas', '2026-11-13'],
  ['in 10 days', '2026-12-07'],
  ['dentro de 10 días', '2026-12-07'],
  ['11/26', '2026-11-26'],
  ['26/11', '2026-11-26'],
  ['26/11/2026', '2026-11-26'],
  ['11-26-2026', '2026-11-26'],
  ['11/26/26', '2026-11-26'],
  ['2026-5-4', '2026-05-04'],
  ['26 nov', '2026-11-26'],
  ['nov 26', '2026-11-26'],
  ['November 26th, 2026', '2026-11-26'],
  ['1ro de noviembre', '2026-11-01'],
  ['2 ago', '2026-08-02'],
  ['mar 3', '2027-03-03'],
  ['mar, 3 nov 2026', '2026-11-03'],
  ['Thu 11/26', '2026-11-26'],
  ['friday', '2026-11-27'],
  ['last friday', '2026-11-20'],
  ['viernes pasado', '2026-11-20'],
  ['next friday', '2026-12-04'],
  ['el próximo lunes', '2026-11-30'],
  ['lunes que viene', '2026-11-30'],
])('the day alone: %s', (text, expected) => {
  expect(read(text)).toBe(expected)
  expect(read(text, 'es')).toBe(expected)
})

test.each([
  ['7:30', '07:30'],
  ['3:15 pm', '15:15'],
  ['3p', '15:00'],
  ['noon', '12:00'],
  ['a las 15', '15:00'],
  ['15 horas', '15:00'],
  ['7h30', '07:30'],
  ['at 11', '11:00'],
])('the time alone: %s', (text, expected) => {
  expect(read(text)).toBe(expected)
})

describe('the year', () => {
  test.each<[string, Toward, string]>([
    ['12/28', 'past', '2025-12-28'],
    ['12/28', 'near', '2026-12-28'],
    ['1/3', 'near', '2027-01-03'],
    ['1/3', 'past', '2026-01-03'],
    ['11/26', 'future', '2027-11-26'],
    ['11/27', 'past', '2026-11-27'],
    ['11/27', 'future', '2026-11-27'],
    ['2/29', 'past', '2024-02-29'],
    ['monday', 'past', '2026-11-23'],
    ['lunes', 'future', '2026-11-30'],
  ])('%s looked for in the %s is %s', (text, toward, day) => {
    expect(read(text, 'en', toward)).toBe(day)
  })
})

describe('what is asked', () => {
  test.each<[string, string, WhenProblem['kind']]>([
    ['', 'en', 'empty'],
    ['x'.repeat(81), 'en', 'too-long'],
    ['someday', 'en', 'unread'],
    ['at the', 'en', 'unread'],
    ['yesterday 3', 'en', 'unread'],
    ['7', 'en', 'unread'],
    ['yesterday 3 pm-ish', 'en', 'unread'],
    ['2/30', 'en', 'no-such-day'],
    ['2026-13-01', 'en', 'no-such-day'],
    ['31 abril', 'es', 'no-such-day'],
    ['today 25:00', 'en', 'no-such-time'],
    ['today 7:75', 'en', 'no-such-time'],
    ['today 15 am', 'en', 'no-such-time'],
    ['3/11', 'es', 'ambiguous-day'],
    ['3/11/2026', 'es-US', 'ambiguous-day'],
    ['monday', 'en', 'ambiguous-week'],
    ['3:15', 'en', 'ambiguous-time'],
    ['ayer a las 3', 'es', 'ambiguous-time'],
    ['anoche a las 2', 'es', 'ambiguous-time'],
    ['yesterday midnight', 'en', 'midnight'],
    ['medianoche', 'es', 'midnight'],
    ['24:00', 'en', 'midnight'],
    ['yesterday and 11/20', 'en', 'unread'],
    ['yesterday, 11/20', 'en', 'two-days'],
    ['7:30, 9:00', 'en', 'two-times'],
    ['Monday 11/26', 'en', 'other-weekday'],
  ])('%s (%s): %s', (text, language, kind) => {
    expect(read(text, language)).toBe(kind)
  })

  test('in English the month comes first', () => {
    expect(read('3/11', 'en', 'past')).toBe('2026-03-11')
  })

  test('one reading that fits is taken', () => {
    expect(read('12/11/2026', 'es', 'past')).toBe('2026-11-12')
    expect(read('5/5', 'es', 'past')).toBe('2026-05-05')
  })

  test.each(['en', 'es'])('every problem has its sentence in %s', (locale) => {
    const words = loadWords()
    const missing: unknown[] = []
    const problems: WhenProblem[] = [
      { kind: 'ambiguous-day', text: '3/11', days: ['2026-03-11', '2026-11-03'] },
      { kind: 'ambiguous-week', text: 'mon', days: ['2026-11-23', '2026-11-30'] },
      { kind: 'ambiguous-time', text: 'a las 3', clock: '3:00' },
      { kind: 'other-weekday', text: 'mon 11/26', day: '2026-11-26' },
      { kind: 'unread', text: 'someday', rest: 'someday' },
      { kind: 'too-long', limit: 80 },
    ]
    const said = problems.map((problem) =>
      speak(words, whenTrouble(problem), {
        locale,
        escape: (typed) => typed,
        onMissing: (one) => missing.push(one),
      }),
    )
    expect(missing).toEqual([])
    expect(said[0]).toMatch(locale === 'en' ? /Nov 3, 2026/ : /3 de nov de 2026/)
    expect(said[2]).toContain('3:00 pm')
  })
})

describe('what the bot prints is read back', () => {
  const day = fc.integer({ min: 0, max: 20_000 }).map((days) => addDays('2000-01-01', days))

  test.each(['en-US', 'es-US'])('days in %s', (locale) => {
    fc.assert(
      fc.property(day, (one) => {
        expect(read(printDay(one, locale), locale)).toBe(one)
      }),
    )
  })

  test.each(['en-US', 'es-US'])('moments in %s', (locale) => {
    fc.assert(
      fc.property(day, fc.integer({ min: 0, max: 1439 }), (one, minutes) => {
        const atMs = Date.parse(`${one}T00:00:00Z`) + minutes * 60_000
        const printed = printMoment({ atMs, zone: 'UTC', style: 'date-time' }, locale)
        expect(readWhen(printed, { now, language: locale })).toEqual({
          ok: true,
          value: { day: one, minutes },
        })
      }),
    )
  })

  test('whatever is typed ends in an answer or a problem', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 90 }), (text) => {
        const result = readWhen(text, { now, language: 'en' })
        expect(result.ok ? 'answer' : 'problem').toMatch(/answer|problem/)
      }),
    )
  })
})
