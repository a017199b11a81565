import { describe, expect, test } from 'vitest'
import { mayI } from '#src/label/allow.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import type { PastTreatment, Situation } from '#src/label/situation.ts'
import { entry, line, reasonOf, situation, standing, treatment } from './build.ts'

const RATE = '0.4 oz wt/1000 ft2'
const plainEntry = entry()
const done = (on: string, parts: Partial<PastTreatment> = {}) => treatment(plainEntry, on, RATE, parts)
const waits = entry({
  limits: { interval: [{ days: 28, counts: 'product', line: 'Wait 28 days.', page: '3' }] },
})
const waitsForActive = entry({ limits: { interval: [{ days: 28, counts: 'active' }] } })
const onFescue = entry({ limits: { interval: [{ days: 28, counts: 'product', turfs: ['tall-fescue'] }] } })
const twice = entry({
  limits: {
    treatments: [{ most: 2, period: 'calendar', counts: 'product', line: 'Two treatments a year.' }],
  },
})
const twiceRolling = entry({ limits: { treatments: [{ most: 2, period: 'rolling', counts: 'product' }] } })

const rows: readonly [what: string, label: LabelEntry, asked: Partial<Situation>, stands: string[]][] = [
  ['one day too soon', waits, { treatments: [done('2025-06-03')] }, ['refusal label.interval']],
  ['on the day', waits, { treatments: [done('2025-06-02')] }, []],
  ['on the same day', waits, { treatments: [done('2025-06-30')] }, ['refusal label.interval']],
  [
    'a log written after a later treatment',
    waits,
    { treatments: [done('2025-07-10')] },
    ['refusal label.interval'],
  ],
  ['on other ground', waits, { treatments: [done('2025-06-20', { sameGround: false })] }, []],
  ['another product', waits, { treatments: [done('2025-06-20', { entry: 'Another' })] }, []],
  [
    'another product with the same active, where the label counts it',
    waitsForActive,
    { treatments: [done('2025-06-20', { entry: 'Another' })] },
    ['refusal label.interval'],
  ],
  [
    'another product with another active',
    waitsForActive,
    { treatments: [done('2025-06-20', { entry: 'Another', actives: [{ name: 'otherol', amounts: [] }] })] },
    [],
  ],
  ['a limit for this turf', onFescue, { treatments: [done('2025-06-20')] }, ['refusal label.interval']],
  [
    'a limit for another turf, while nobody knows the turf',
    onFescue,
    { turfs: 'unknown', treatments: [done('2025-06-20')] },
    ['refusal label.interval', 'hold label.turf-unknown'],
  ],
  ['one treatment of two', twice, { treatments: [done('2025-03-01')] }, []],
  [
    'two treatments of two',
    twice,
    { treatments: [done('2025-03-01'), done('2025-05-01')] },
    ['refusal label.treatments-used-up', 'heads-up label.group-again'],
  ],
  [
    'two treatments, one of them last year',
    twice,
    { treatments: [done('2024-12-01'), done('2025-05-01')] },
    ['heads-up label.group-again'],
  ],
  [
    'two treatments within twelve months',
    twiceRolling,
    { treatments: [done('2024-12-01'), done('2025-05-01')] },
    ['refusal label.treatments-used-up', 'heads-up label.group-again'],
  ],
]

describe('how often', () => {
  test.each(rows)('%s', (_what, label, asked, stands) => {
    expect(standing(mayI(label, situation(asked)))).toEqual(stands)
  })

  test('an interval refuses until its date, which is the earliest next', () => {
    const verdict = mayI(waits, situation({ treatments: [done('2025-06-03')] }))
    expect(reasonOf(verdict, 'label.interval')).toMatchObject({
      line: 'Wait 28 days.',
      page: '3',
      with: { days: 28, last: { day: '2025-06-03' }, next: { day: '2025-07-01' } },
    })
    expect(verdict.earliestNext).toBe('2025-07-01')
  })
})

describe('the earliest next day', () => {
  test.each([
    ['nothing stands in the way', waits, [], '2025-06-30'],
    ['the interval is over', waits, [done('2025-05-01')], '2025-06-30'],
    ['two treatments by the calendar', twice, [done('2025-03-01'), done('2025-05-01')], '2026-01-01'],
    [
      'two treatments in a rolling year',
      twiceRolling,
      [done('2024-12-01'), done('2025-05-01')],
      '2025-12-01',
    ],
  ] as const)('%s', (_what, label, treatments, day) => {
    expect(mayI(label, situation({ treatments })).earliestNext).toBe(day)
  })

  test('a rate that no day allows has none', () => {
    const capped = entry({
      limits: { perYear: [{ rates: ['0.3 oz wt/1000 ft2'], period: 'rolling', counts: 'product' }] },
    })
    const rate = {
      kind: 'area',
      value: '0.5',
      unit: 'oz wt',
      of: 'product',
      per: { value: '1', unit: '1000 ft2' },
    } as const
    expect(mayI(capped, situation({ rate })).earliestNext).toBeNull()
  })

  test('interval and yearly limit are waited for together', () => {
    const both = entry({
      limits: {
        interval: [{ days: 28, counts: 'product' }],
        perYear: [{ rates: ['0.6 oz wt/1000 ft2'], period: 'rolling', counts: 'product' }],
      },
    })
    const rate = {
      kind: 'area',
      value: '0.4',
      unit: 'oz wt',
      of: 'product',
      per: { value: '1', unit: '1000 ft2' },
    } as const
    const verdict = mayI(both, situation({ rate, treatments: [done('2025-06-20')] }))
    expect(verdict.earliestNext).toBe('2026-06-20')
  })
})

describe('first and repeat', () => {
  const first = entry({ rateLines: [line({ treatment: 'first' })] })

  test('a first-treatment line is questioned where there was a treatment within the year', () => {
    expect(standing(mayI(first, situation({ treatments: [done('2025-03-01')] })))).toEqual([
      'question label.first-line-again',
    ])
  })

  test('a year later it is a first treatment again', () => {
    expect(standing(mayI(first, situation({ treatments: [done('2024-06-30')] })))).toEqual([])
  })
})

describe('one mode-of-action group again and again', () => {
  test('the third use within a year is noted', () => {
    const verdict = mayI(plainEntry, situation({ treatments: [done('2024-09-01'), done('2025-03-01')] }))
    expect(reasonOf(verdict, 'label.group-again')).toMatchObject({
      outcome: 'heads-up',
      with: { group: '90', times: 3 },
    })
  })

  test('the second use, or one more than a year ago, is not', () => {
    expect(
      standing(mayI(plainEntry, situation({ treatments: [done('2024-06-01'), done('2025-03-01')] }))),
    ).toEqual([])
  })
})
