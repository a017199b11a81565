import { describe, expect, test } from 'vitest'
import { readLeave } from '#src/visits/own-days.ts'
import { readPercents } from '#src/visits/read-percents.ts'
import { readPin } from '#src/visits/read-plot.ts'
import { readHours, readRound, readSpan, readWeekdays } from '#src/visits/read-work.ts'

describe('percents of several plots', () => {
  const plots = ['1', '2', 'gate']
  test.each([
    ['70, 80, 90', [70, 80, 90]],
    ['70 80 90', [70, 80, 90]],
    ['70 %; 80%; 90', [70, 80, 90]],
    ['70 percent, 80 Percent, 90pct', [70, 80, 90]],
    ['1=70 por ciento; 2=80; gate=90 per cent', [70, 80, 90]],
    ['gate=90; 70, 80', [70, 80, 90]],
    ['2: 80\n1: 70\nGATE: 90', [70, 80, 90]],
  ])('%s', (text, browns) => {
    const read = readPercents(text, plots)
    expect(read.ok && read.value.map(({ brownPercent }) => brownPercent)).toEqual(browns)
  })

  test('a plot may be left out by naming the others, and cover stands behind a slash', () => {
    expect(readPercents('1=70/15; gate=90', plots)).toEqual({
      ok: true,
      value: [
        { plot: '1', brownPercent: 70, coverPercent: 15 },
        { plot: 'gate', brownPercent: 90 },
      ],
    })
  })

  test.each(['', '70', '70, 80', '70, 80, 90, 100', '101, 2, 3', '70; x=3', '-5, 1, 2', '7.5, 1, 2'])(
    '“%s” is not read',
    (text) => expect(readPercents(text, plots).ok).toBe(false),
  )
})

test.each([
  ['mon-fri', [1, 2, 3, 4, 5]],
  ['Mon, Wed and Sat', [1, 3, 6]],
  ['lun a vie', [1, 2, 3, 4, 5]],
  ['fri-mon', [1, 5, 6, 7]],
  ['sábado; domingo', [6, 7]],
  ['someday', null],
  ['mon-', null],
])('days of the week: %s', (text, days) => expect(readWeekdays(text)).toEqual(days))

test.each([
  ['7-17', { startsAt: '07:00', endsAt: '17:00' }],
  ['6:30 to 15:00', { startsAt: '06:30', endsAt: '15:00' }],
  ['7 am to 4:30 pm', { startsAt: '07:00', endsAt: '16:30' }],
  ['7am-5p.m.', { startsAt: '07:00', endsAt: '17:00' }],
  ['6:30 a. m. a 12 p. m.', { startsAt: '06:30', endsAt: '12:00' }],
  ['12 am to 12 pm', { startsAt: '00:00', endsAt: '12:00' }],
  ['17-7', null],
  ['24-25', null],
  ['7 pm to 7 am', null],
  ['0 am to 13 pm', null],
])('hours: %s', (text, hours) => expect(readHours(text)).toEqual(hours))

test.each([
  ['every 14 days from 2026-05-04', { kind: 'every', days: 14, from: '2026-05-04' }],
  ['2026-05-04, 2026-05-18', { kind: 'on', days: ['2026-05-04', '2026-05-18'] }],
  ['every 14 days from may 4', { kind: 'every', days: 14, from: '2026-05-04' }],
  ['every 2 weeks from 5/4/2026', { kind: 'every', days: 14, from: '2026-05-04' }],
  ['every week from 2026-05-04', { kind: 'every', days: 7, from: '2026-05-04' }],
  ['cada 10 días desde el 4 de mayo', { kind: 'every', days: 10, from: '2026-05-04' }],
  ['may 4; may 18', { kind: 'on', days: ['2026-05-04', '2026-05-18'] }],
  ['none', null],
  ['every other week', undefined],
  ['every 0 days from 2026-05-04', undefined],
  ['every 60 weeks from 2026-05-04', undefined],
  ['every 2 weeks from whenever', undefined],
])('round: %s', (text, round) => expect(readRound(text, '2026-05-01')).toEqual(round))

test.each([
  ['2026-07-03; 2026-12-25', ['2026-07-03', '2026-12-25']],
  ['ninguno', []],
  ['jul 3; dec 24 to dec 26', ['2026-07-03', '2026-12-24', '2026-12-25', '2026-12-26']],
  ['24 dic a 26 dic', ['2026-12-24', '2026-12-25', '2026-12-26']],
  ['2026-02-30', null],
])('days off: %s', (text, days) => expect(readLeave(text, '2026-05-01')).toEqual(days))

test.each([
  ['7 to 14', { fromDay: 7, toDay: 14 }],
  ['7–14', { fromDay: 7, toDay: 14 }],
  ['14 to 7', null],
  ['0 to 3', null],
])('days after an application: %s', (text, span) => expect(readSpan(text)).toEqual(span))

test.each([
  ['35.91320, -78.90120', { latitude: '35.9132', longitude: '-78.9012' }],
  ['by the mailbox, 3 ft', null],
  ['95.0000, 10.0000', null],
])('a pin: %s', (text, pin) => expect(readPin(text)).toEqual(pin))
