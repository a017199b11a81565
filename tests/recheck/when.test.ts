import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { dayIn, momentIn } from '#src/desk/clock.ts'
import { addDays } from '#src/label/day.ts'
import { isAtWork, sendMoment, WorkTime } from '#src/recheck/when.ts'

/** dayjs with its zone data, as the program uses it. */
const time = { momentIn, dayIn }
const everyDay = { weekdays: [1, 2, 3, 4, 5, 6, 7], daysOff: [] }

function work(zone: string, parts: Partial<WorkTime> = {}): WorkTime {
  return WorkTime.parse({ zone, workdays: everyDay, ...parts })
}

function sent(at: WorkTime, day: string, now: string): string | null {
  const moment = sendMoment(at, day, { nowMs: Date.parse(now), time })
  return moment === null ? null : new Date(moment).toISOString()
}

/** Long before the day in question. */
const EARLY = '2026-01-01T00:00:00Z'

/** Seven in the morning on the days around a change of clocks, by the zone's own rules of 2026 (IANA time zone database). */
const mornings: readonly (readonly [
  zone: string,
  days: readonly (readonly [day: string, hour: string])[],
])[] = [
  // United States: forward on 8 March, back on 1 November.
  [
    'America/New_York',
    [
      ['2026-03-07', '12'],
      ['2026-03-08', '11'],
      ['2026-10-31', '11'],
      ['2026-11-01', '12'],
    ],
  ],
  [
    'America/Chicago',
    [
      ['2026-03-07', '13'],
      ['2026-03-08', '12'],
      ['2026-10-31', '12'],
      ['2026-11-01', '13'],
    ],
  ],
  [
    'America/Los_Angeles',
    [
      ['2026-03-07', '15'],
      ['2026-03-08', '14'],
      ['2026-10-31', '14'],
      ['2026-11-01', '15'],
    ],
  ],
  // European Union and Britain: forward on 29 March, back on 25 October.
  [
    'Europe/London',
    [
      ['2026-03-28', '07'],
      ['2026-03-29', '06'],
      ['2026-10-24', '06'],
      ['2026-10-25', '07'],
    ],
  ],
  [
    'Europe/Berlin',
    [
      ['2026-03-28', '06'],
      ['2026-03-29', '05'],
      ['2026-10-24', '05'],
      ['2026-10-25', '06'],
    ],
  ],
]

describe.each(mornings)('seven in the morning in %s', (zone, days) => {
  test.each(days)('on %s is %s hours UTC', (day, hour) => {
    expect(sent(work(zone), day, EARLY)).toBe(`${day}T${hour}:00:00.000Z`)
  })
})

test.each([
  // New South Wales: forward on 4 October, back on 5 April 2026; the morning lies in the UTC day before.
  ['Australia/Sydney', '2026-04-04', '2026-04-03T20:00:00.000Z'],
  ['Australia/Sydney', '2026-04-05', '2026-04-04T21:00:00.000Z'],
  ['Australia/Sydney', '2026-10-03', '2026-10-02T21:00:00.000Z'],
  ['Australia/Sydney', '2026-10-04', '2026-10-03T20:00:00.000Z'],
  // Lord Howe Island moves its clocks by half an hour.
  ['Australia/Lord_Howe', '2026-04-04', '2026-04-03T20:00:00.000Z'],
  ['Australia/Lord_Howe', '2026-04-05', '2026-04-04T20:30:00.000Z'],
  ['Australia/Lord_Howe', '2026-10-04', '2026-10-03T20:00:00.000Z'],
  // No change of clocks.
  ['America/Phoenix', '2026-03-08', '2026-03-08T14:00:00.000Z'],
  ['America/Phoenix', '2026-11-01', '2026-11-01T14:00:00.000Z'],
])('seven in the morning in %s on %s is %s', (zone, day, expected) => {
  expect(sent(work(zone), day, EARLY)).toBe(expected)
})

describe('a time that clocks leave out', () => {
  test.each([
    ['America/New_York', '02:30', '2026-03-08', '2026-03-08T07:30:00.000Z'],
    ['Europe/London', '01:30', '2026-03-29', '2026-03-29T01:30:00.000Z'],
    ['Australia/Sydney', '02:30', '2026-10-04', '2026-10-03T16:30:00.000Z'],
    ['America/Santiago', '00:15', '2026-09-06', '2026-09-06T04:15:00.000Z'],
  ])('in %s at %s on %s becomes the time it is then', (zone, starts, day, expected) => {
    expect(sent(work(zone, { starts }), day, EARLY)).toBe(expected)
    expect(dayIn(zone, Date.parse(expected))).toBe(day)
  })

  test('a whole day that a calendar leaves out is no workday: Samoa had no 30 December 2011', () => {
    expect(sent(work('Pacific/Apia'), '2011-12-30', '2011-12-01T00:00:00Z')).toBe('2011-12-30T17:00:00.000Z')
    expect(dayIn('Pacific/Apia', Date.parse('2011-12-30T17:00:00Z'))).toBe('2011-12-31')
  })
})

describe('a time that comes twice is the first of the two', () => {
  test.each([
    ['America/New_York', '01:30', '2026-11-01', '2026-11-01T05:30:00.000Z'],
    ['America/Los_Angeles', '01:30', '2026-11-01', '2026-11-01T08:30:00.000Z'],
    ['Europe/London', '01:30', '2026-10-25', '2026-10-25T00:30:00.000Z'],
    ['Australia/Sydney', '02:30', '2026-04-05', '2026-04-04T15:30:00.000Z'],
    ['Australia/Lord_Howe', '01:45', '2026-04-05', '2026-04-04T14:45:00.000Z'],
  ])('in %s at %s on %s', (zone, starts, day, expected) => {
    expect(sent(work(zone, { starts }), day, EARLY)).toBe(expected)
  })
})

describe('working hours', () => {
  const crew = work('America/New_York', { workdays: { weekdays: [1, 2, 3, 4, 5], daysOff: ['2026-05-25'] } })
  // Friday 22 May 2026; New York is four hours behind UTC.
  test.each([
    ['before work, at its start', '2026-05-22T09:00:00Z', '2026-05-22T11:00:00.000Z'],
    ['during work, at once', '2026-05-22T15:12:00Z', '2026-05-22T15:12:00.000Z'],
    ['after work, over the weekend and the day off', '2026-05-22T21:00:01Z', '2026-05-26T11:00:00.000Z'],
    ['on Saturday, after the day off', '2026-05-23T15:00:00Z', '2026-05-26T11:00:00.000Z'],
    ['late in the evening, when it is tomorrow in UTC', '2026-05-22T02:00:00Z', '2026-05-22T11:00:00.000Z'],
  ])('%s', (_, now, expected) => {
    expect(sent(crew, '2026-05-21', now)).toBe(expected)
  })

  test('a day that has not come is waited for', () => {
    expect(sent(crew, '2026-06-01', '2026-05-22T15:00:00Z')).toBe('2026-06-01T11:00:00.000Z')
  })

  test('nobody hears who is off for more than a year', () => {
    const daysOff = Array.from({ length: 500 }, (_, at) => addDays('2026-05-01', at))
    expect(
      sent(
        work('America/New_York', { workdays: { weekdays: [1], daysOff } }),
        '2026-05-04',
        '2026-05-04T15:00:00Z',
      ),
    ).toBeNull()
  })

  test('a working day ends after it starts', () => {
    expect(WorkTime.safeParse({ zone: 'America/New_York', starts: '09:00', ends: '09:00' }).success).toBe(
      false,
    )
    expect(WorkTime.safeParse({ zone: 'America/New_York', starts: '9:00' }).success).toBe(false)
  })
})

test('whenever it is, a message waits for working hours of the day or later, and never longer than it must', () => {
  const zones = [
    'America/New_York',
    'Europe/London',
    'Australia/Lord_Howe',
    'America/St_Johns',
    'Asia/Kathmandu',
  ]
  fc.assert(
    fc.property(
      fc.constantFrom(...zones),
      fc.integer({ min: Date.parse('2026-01-01T00:00:00Z'), max: Date.parse('2026-12-31T00:00:00Z') }),
      fc.integer({ min: -10, max: 40 }),
      fc.subarray([1, 2, 3, 4, 5, 6, 7], { minLength: 1 }),
      (zone, nowMs, ahead, weekdays) => {
        const crew = work(zone, { workdays: { weekdays, daysOff: [] } })
        const day = addDays(dayIn(zone, nowMs), ahead)
        const moment = sendMoment(crew, day, { nowMs, time }) ?? Number.NaN
        expect(moment).toBeGreaterThanOrEqual(nowMs)
        expect(dayIn(zone, moment) >= day).toBe(true)
        expect(isAtWork(crew, moment, time)).toBe(true)
        expect(sendMoment(crew, day, { nowMs: moment, time })).toBe(moment)
      },
    ),
  )
})
