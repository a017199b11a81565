import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { momentIn } from '#src/desk/clock.ts'
import type { Limits } from '#src/label/limits.ts'
import { daysAfter, orEveningBefore, orNextMorning } from '#src/notices/moments.ts'
import { type Notice, type NoticeKind, noticesOf, watersDisagree } from '#src/notices/notice.ts'
import type { ApplicationRecord } from '#src/record/record.ts'
import { ruleSetFor } from '#src/record/rule-set.ts'
import { entry } from '#tests/label/build.ts'
import { at, record, tables } from '#tests/record/build.ts'

const ZONE = 'America/New_York'
const HOUR_MS = 3_600_000
/** Half past nine to ten to ten on a Monday in June, by the clock in New York. */
const END_MS = at('2025-06-30 09:50').atMs

const label = (name: string, limits: Partial<Limits>) => entry({ name, limits: limits as Limits })
const bare: Partial<ApplicationRecord> = { posting: { done: false }, forHire: false }
const lawn = (parts: Partial<ApplicationRecord> = {}) => {
  const { keepOffUntil: _, customerCopy: __, ...rest } = record({ ...bare, ...parts })
  return { ...rest, ...parts }
}
const asked = (limits: Partial<Limits>[], parts: Partial<ApplicationRecord> = {}, state = 'NC') =>
  noticesOf(lawn(parts), {
    entries: limits.map((one, n) => label(`Invented ${n + 1}`, one)),
    rules: ruleSetFor(state, tables),
    zone: ZONE,
  })
const local = (ms: number | null) =>
  ms === null
    ? null
    : new Intl.DateTimeFormat('sv-SE', { timeZone: ZONE, dateStyle: 'short', timeStyle: 'short' }).format(ms)
const read = (notices: readonly Notice[]) => notices.map(({ kind, untilMs }) => [kind, local(untilMs)])

describe('what a label leaves to wait for', () => {
  test.each<[string, Partial<Limits>, [NoticeKind, string | null][]]>([
    ['days after mowing', { mowing: { daysAfter: 2 } }, [['no-mowing', '2025-07-02 09:50']]],
    ['days before mowing only', { mowing: { daysBefore: 2 } }, []],
    [
      'hours without water',
      { watering: { rule: 'hold off', hours: 24 } },
      [['no-water', '2025-07-01 09:50']],
    ],
    [
      'water in by an hour',
      { watering: { rule: 'water in', hours: 24 } },
      [['water-in', '2025-07-01 09:50']],
    ],
    ['water in, no hours given', { watering: { rule: 'water in' } }, [['water-in', null]]],
    ['a rain-free time', { rainFree: { hours: 4 } }, [['no-water', '2025-06-30 13:50']]],
    ['hours of keeping off', { keepOff: { hours: 24 } }, [['keep-off', '2025-07-01 09:50']]],
    ['keeping off until dry', { keepOff: { untilDry: true } }, [['keep-off', null]]],
    ['hours beside drying', { keepOff: { hours: 4, untilDry: true } }, [['keep-off', '2025-06-30 13:50']]],
    [
      'seed and sod',
      { seedAfter: { days: 28 }, sodAfter: { days: 60 } },
      [
        ['no-seed', '2025-07-28 09:50'],
        ['no-sod', '2025-08-29 09:50'],
      ],
    ],
    ['nothing', {}, []],
  ])('%s', (_, limits, wanted) => {
    expect(read(asked([limits]))).toEqual(wanted)
  })

  test('of several products the longest wait and the earliest deadline count, with the product that says so', () => {
    const found = asked([
      { mowing: { daysAfter: 2 }, watering: { rule: 'water in', hours: 48 } },
      { mowing: { daysAfter: 3 }, watering: { rule: 'water in', hours: 24 } },
    ])
    expect(found.map(({ kind, products }) => [kind, products])).toEqual([
      ['water-in', ['Invented 2']],
      ['no-mowing', ['Invented 2']],
    ])
    expect(read(found)).toEqual([
      ['water-in', '2025-07-01 09:50'],
      ['no-mowing', '2025-07-03 09:50'],
    ])
  })

  test('labels that want water in before the other allows any disagree', () => {
    const both = (hours: number) =>
      asked([{ watering: { rule: 'water in', hours: 24 } }, { watering: { rule: 'hold off', hours } }])
    expect(watersDisagree(both(24))).not.toBeNull()
    expect(watersDisagree(both(12))).toBeNull()
  })

  test('what the customer was told counts when it is longer', () => {
    const told = { keepOffUntil: at('2025-07-02 08:00') }
    expect(read(asked([{ keepOff: { hours: 24 } }], told))).toEqual([['keep-off', '2025-07-02 08:00']])
    expect(read(asked([{ keepOff: { hours: 72 } }], told))).toEqual([['keep-off', '2025-07-03 09:50']])
  })
})

describe('what a state leaves to do', () => {
  const posted = { posting: { done: true } }
  const hired = { forHire: true }
  test.each<[string, string, string, Partial<ApplicationRecord>, [NoticeKind, string | null][]]>([
    // Code of Maryland Regulations 15.05.01.15, as in data/states/MD.json
    ['Maryland: 48 hours', 'MD', 'signs', posted, [['sign-down', '2025-07-02 09:50']]],
    // Maryland Code, Agriculture 5-208, as in data/states/MD.json
    ['Maryland: copy at completion', 'MD', 'copy', hired, [['customer-copy', '2025-06-30 09:50']]],
    // Wisconsin ATCP 29.56, as in data/states/WI.json: nobody here knows when the sun sets
    ['Wisconsin: sunset of the next day', 'WI', 'signs', posted, [['sign-down', '2025-07-02 00:00']]],
  ])('%s', (_, state, what, parts, wanted) => {
    const kind = what === 'signs' ? 'sign-down' : 'customer-copy'
    expect(read(asked([], parts, state).filter((one) => one.kind === kind))).toEqual(wanted)
  })

  test('a label’s keep-off that lasts longer keeps the signs up where the state says so', () => {
    const withInterval = [...tables.states.values()].find(({ posting }) => posting?.down.orLabelInterval)
    expect(withInterval).toBeDefined()
    const state = withInterval?.id ?? ''
    const [own] = asked([], posted, state).filter(({ kind }) => kind === 'sign-down')
    const [longer] = asked([{ keepOff: { hours: 300 } }], posted, state).filter(
      ({ kind }) => kind === 'sign-down',
    )
    expect(longer?.untilMs).toBe(END_MS + 300 * HOUR_MS)
    expect(own?.untilMs).toBeLessThan(END_MS + 300 * HOUR_MS)
  })

  test('no signs put up, no signs to take down; a copy that was sent is not due', () => {
    const sent = { forHire: true, customerCopy: { sentOn: '2025-06-30', how: 'paper' } } as const
    expect(asked([], { posting: { done: false }, ...sent }, 'MD')).toEqual([])
  })
})

describe('when the clocks change', () => {
  test.each([
    // US clocks go forward on 8 March 2026 and back on 1 November 2026 (15 U.S.C. 260a)
    ['America/New_York', '2026-03-07 14:00', 2, '2026-03-09 14:00', 47],
    ['America/New_York', '2026-10-31 14:00', 2, '2026-11-02 14:00', 49],
    ['America/Phoenix', '2026-03-07 14:00', 2, '2026-03-09 14:00', 48],
    ['America/Anchorage', '2026-03-07 14:00', 1, '2026-03-08 14:00', 23],
    // A time that does not exist on that day
    ['America/Chicago', '2026-03-07 02:30', 1, '2026-03-08 03:30', 24],
  ])('in %s, %s and %i days', (zone, from, days, until, hours) => {
    const [day = '', time = ''] = from.split(' ')
    const startMs = momentIn(zone, day, time)
    const laterMs = daysAfter(startMs, days, zone)
    const shown = new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short', timeStyle: 'short' })
    expect(shown.format(laterMs)).toBe(until)
    expect((laterMs - startMs) / HOUR_MS).toBe(hours)
  })
})

const zones = [
  'America/New_York',
  'America/Los_Angeles',
  'Pacific/Honolulu',
  'America/St_Johns',
  'Europe/Berlin',
]
const hours = fc.integer({ min: 0, max: 240 })
const days = fc.integer({ min: 0, max: 400 })
const anyLimits = fc.record(
  {
    mowing: fc.record({ daysAfter: days }),
    watering: fc.record({ rule: fc.constantFrom('hold off' as const, 'water in' as const), hours }),
    rainFree: fc.record({ hours }),
    keepOff: fc.record({ hours }),
    seedAfter: fc.record({ days }),
    sodAfter: fc.record({ days }),
  },
  { requiredKeys: [] },
)
const anyMs = fc.integer({ min: Date.parse('2024-01-01'), max: Date.parse('2031-01-01') })

test('nothing ends before the application does, in any state and zone', () => {
  fc.assert(
    fc.property(
      fc.array(anyLimits, { maxLength: 3 }),
      anyMs,
      fc.constantFrom(...zones),
      fc.constantFrom('XX', ...tables.states.keys()),
      (limits, endMs, zone, state) => {
        const moment = (ms: number) => ({
          atMs: ms,
          zone,
          local: new Intl.DateTimeFormat('sv-SE', {
            timeZone: zone,
            dateStyle: 'short',
            timeStyle: 'short',
          }).format(ms),
        })
        const ended = moment(endMs)
        const notices = noticesOf(
          lawn({
            endedAt: ended,
            date: ended.local.slice(0, 10),
            writtenAt: moment(endMs + HOUR_MS),
            posting: { done: true },
            forHire: true,
          }),
          {
            entries: limits.map((one, n) => label(`Invented ${n}`, one)),
            rules: ruleSetFor(state, tables),
            zone,
          },
        )
        for (const { untilMs } of notices) expect(untilMs ?? endMs).toBeGreaterThanOrEqual(endMs)
        expect(new Set(notices.map(({ kind }) => kind)).size).toBe(notices.length)
      },
    ),
  )
})

test('outside working hours what is over waits for the morning, and what is due comes the evening before', () => {
  const hoursOfWork = { from: '07:00', to: '19:00' }
  fc.assert(
    fc.property(anyMs, fc.constantFrom(...zones), (ms, zone) => {
      const clock = (at: number) =>
        new Intl.DateTimeFormat('sv-SE', { timeZone: zone, timeStyle: 'short' }).format(at)
      const later = orNextMorning(ms, zone, hoursOfWork)
      const earlier = orEveningBefore(ms, zone, hoursOfWork)
      expect(later).toBeGreaterThanOrEqual(ms)
      expect(earlier).toBeLessThanOrEqual(ms)
      expect(later - ms).toBeLessThan(13 * HOUR_MS)
      expect(ms - earlier).toBeLessThan(13 * HOUR_MS)
      for (const one of [later, earlier]) {
        expect(clock(one) >= '07:00').toBe(true)
        expect(clock(one) <= '19:00').toBe(true)
      }
    }),
  )
})

test('without an end written down the application is taken to have ended as late as it can have', () => {
  const { endedAt: _, ...open } = lawn()
  const wait = {
    entries: [label('Invented', { rainFree: { hours: 1 } })],
    rules: ruleSetFor('NC', tables),
    zone: ZONE,
  }
  const until = (parts: Partial<ApplicationRecord>) =>
    local(noticesOf({ ...open, ...parts }, wait)[0]?.untilMs ?? 0)
  expect(until({})).toBe('2025-06-30 11:00')
  expect(until({ writtenAt: at('2025-07-02 10:00') })).toBe('2025-07-01 01:00')
})
