import { describe, expect, test } from 'vitest'
import { decideSecond } from '#src/efficacy/decision.ts'
import { applicationsLeft, intervalOver, mostLeftOf } from '#src/efficacy/left.ts'
import { mayI } from '#src/label/allow.ts'
import type { YearlyLimit } from '#src/label/limits.ts'
import type { PastTreatment, Situation } from '#src/label/situation.ts'
import type { Verdict } from '#src/label/verdict.ts'
import { dry, entry, line, reasonOf, situation, treatment } from '../label/build.ts'
import { nutsedgeLabel, visits } from './build.ts'

/**
 * A lawn of 6,000 ft², of which a strip of 600 ft² had 0.113 oz per 1,000 ft² in May; the label allows 0.2 oz a year. In
 * July the same again is asked. All figures by hand: 0.2 - 0.113 = 0.087; 0.087 x 0.6 = 0.0522 oz = 1.4798 g.
 */
const FULL = '0.113 oz wt/1000 ft2'
const JULY = '2026-07-06'
const inMay = (sameGround: PastTreatment['sameGround'], rate = FULL) =>
  treatment(nutsedgeLabel, '2026-05-04', rate, { areaFt2: '600', sameGround })

function asked(treatments: readonly PastTreatment[], rate = FULL, parts: Partial<Situation> = {}): Verdict {
  return mayI(
    nutsedgeLabel,
    situation({ today: JULY, lastConfirmedOn: '2026-04-01', rate: dry(rate), treatments, ...parts }),
  )
}

/** Control has stayed at 60 percent since the middle of June. */
const steady = visits(['2026-06-15', 58], ['2026-07-06', 60])

function decide(verdict: Verdict) {
  return decideSecond({
    today: JULY,
    judged: steady,
    schedule: { judgeFrom: '2026-06-01', nextLook: null },
    label: { on: JULY, verdict },
    identityDoubtful: false,
  })
}

const ground = { areaFt2: '600', step: { value: '0.1', unit: 'g' } } as const

describe('the strip that was treated in May', () => {
  const verdict = asked([inMay(true)])

  test('is refused the full rate in July, with what is left, in the label’s words', () => {
    const decision = decide(verdict)
    expect(decision.kind).toBe('refusal')
    expect(decision.reasons[0]).toMatchObject({
      id: 'label.above-year',
      line: 'At most 0.2 oz per 1,000 sq ft in a year.',
      with: { left: { value: '0.087' } },
    })
  })

  test('has 0.087 oz left: 1.4 g on a scale of 0.1 g, never up', () => {
    expect(mostLeftOf(verdict, ground)).toMatchObject({
      rate: { value: '0.087', unit: 'oz wt' },
      exact: { value: '0.0522', unit: 'oz wt' },
      measured: { value: '1.4', unit: 'g' },
      page: '3',
    })
  })

  test('may have that, with a word on its being less than the label’s rate', () => {
    const rest = asked([inMay(true)], '0.087 oz wt/1000 ft2')
    expect(decide(rest)).toMatchObject({ kind: 'allowed', outcome: 'heads-up' })
    expect(reasonOf(rest, 'label.below-lowest')).toBeDefined()
  })

  test('is refused that too where the label forbids less than its lowest rate', () => {
    const strict = entry({
      ...nutsedgeLabel,
      limits: { ...nutsedgeLabel.limits, lessForbidden: { line: 'Do not use less.', page: '3' } },
    })
    const rest = mayI(
      strict,
      situation({
        today: JULY,
        lastConfirmedOn: '2026-04-01',
        rate: dry('0.087 oz wt/1000 ft2'),
        treatments: [inMay(true)],
      }),
    )
    expect(decide(rest).kind).toBe('refusal')
  })

  test('counts when nobody knows whether it was the same ground', () => {
    expect(decide(asked([inMay('unknown')])).kind).toBe('refusal')
  })

  test('spread over the whole lawn it would look ten times lighter, and would wrongly pass', () => {
    // 0.113 x 600 / 6000 = 0.0113 oz per 1,000 ft2
    const averaged = asked([inMay(true, '0.0113 oz wt/1000 ft2')])
    expect(averaged.outcome).toBe('answer')
    expect(verdict.outcome).toBe('refusal')
  })
})

describe('other ground of the same lawn', () => {
  test.each([
    ['another area, or a strip that was missed in May', [inMay(false)]],
    ['ground that was never treated', []],
  ])('%s is answered', (_, treatments) => {
    const verdict = asked(treatments)
    expect(decide(verdict)).toMatchObject({ kind: 'allowed', outcome: 'answer' })
    expect(mostLeftOf(verdict, ground)?.rate.value).toBe('0.2')
  })
})

describe('what is left', () => {
  test('is nothing, not less, when all is used', () => {
    const verdict = asked([inMay(true), inMay(true)])
    expect(mostLeftOf(verdict, ground)).toMatchObject({
      rate: { value: '0' },
      measured: { value: '0', unit: 'g' },
    })
  })

  test('is unknown without a yearly limit', () => {
    expect(mostLeftOf(mayI(entry(), situation()), ground)).toBeNull()
  })

  test('is the tightest of several limits', () => {
    const per = (rate: string): YearlyLimit => ({ rates: [rate], period: 'rolling', counts: 'product' })
    const two = entry({
      rateLines: [line({ rates: [{ high: FULL }] })],
      limits: { perYear: [per('0.3 oz wt/1000 ft2'), per('8.712 oz wt/acre')] },
    })
    // 8.712 oz an acre is 0.2 oz per 1,000 ft², so 0.12 oz on 600 ft².
    expect(mostLeftOf(mayI(two, situation()), ground)?.exact.value).toBe('0.12')
  })

  describe('of the number of applications', () => {
    const counted = entry({
      limits: { treatments: [{ most: 2, period: 'calendar', counts: 'product' }] },
    })
    const times = (...days: string[]) => days.map((on) => treatment(counted, on, '0.4 oz wt/1000 ft2'))
    test.each([
      [2, times()],
      [1, times('2025-03-01')],
      [0, times('2025-03-01', '2025-05-01')],
      [0, times('2025-03-01', '2025-04-01', '2025-05-01')],
      [2, times('2024-05-01')],
    ])('%i', (left, treatments) => {
      const there = situation({ treatments })
      expect(applicationsLeft(counted, there, { verdict: mayI(counted, there) })).toBe(left)
    })

    test('is the least of several counts', () => {
      const count = (most: number) => ({ most, period: 'calendar', counts: 'product' }) as const
      const twice = entry({ limits: { treatments: [count(4), count(3), count(5)] } })
      const there = situation({ treatments: times('2025-03-01') })
      expect(applicationsLeft(twice, there, { verdict: mayI(twice, there) })).toBe(2)
    })

    test('is unknown where the label counts none', () => {
      expect(applicationsLeft(entry(), situation(), { verdict: mayI(entry(), situation()) })).toBeNull()
    })
  })
})

describe('the days between two treatments', () => {
  const between = (treatments: readonly PastTreatment[], of = nutsedgeLabel) => {
    const there = situation({ today: JULY, treatments })
    return intervalOver(of, there, { verdict: mayI(of, there) })
  }

  test('are over 28 days after the last treatment of this ground', () => {
    // 4 May + 28 days
    expect(between([inMay(true)])).toEqual({ days: 28, on: '2026-06-01' })
    expect(between([inMay(true), treatment(nutsedgeLabel, '2026-06-10', FULL)])?.on).toBe('2026-07-08')
  })

  test('begin with a treatment of this ground, and only where the label asks for them', () => {
    expect(between([])).toBeNull()
    expect(between([inMay(false)])).toBeNull()
    expect(between([inMay(true)], entry())).toBeNull()
  })

  test('are those of the longest wait', () => {
    const wait = (days: number) => ({ days, counts: 'product' }) as const
    const two = entry({ limits: { interval: [wait(14), wait(42), wait(28)] } })
    expect(between([treatment(two, '2026-05-04', '0.4 oz wt/1000 ft2')], two)?.days).toBe(42)
  })
})
