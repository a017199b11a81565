import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decideDefaults } from '#src/efficacy/decide-settings.ts'
import type { Decision, DecisionInput } from '#src/efficacy/decision.ts'
import { decideSecond } from '#src/efficacy/decision.ts'
import type { Judged } from '#src/efficacy/judge.ts'
import { judgeRating } from '#src/efficacy/judge.ts'
import { mayI } from '#src/label/allow.ts'
import { addDays, daysBetween } from '#src/label/day.ts'
import type { Situation } from '#src/label/situation.ts'
import type { Verdict } from '#src/label/verdict.ts'
import { dry, situation, treatment } from '../label/build.ts'
import { nutsedgeLabel, rating, TREATED_ON, visits } from './build.ts'

const TODAY = '2026-06-15'
const CONFIRMED = { lastConfirmedOn: '2026-04-01' }

/** What the label says on a day after a small application in May: 0.05 oz of the 0.2 oz of a year. */
function labelOn(on: string, parts: Partial<Situation> = {}): DecisionInput['label'] {
  const treatments = [treatment(nutsedgeLabel, TREATED_ON, '0.05 oz wt/1000 ft2')]
  const asked = { ...CONFIRMED, today: on, treatments, rate: dry('0.113 oz wt/1000 ft2'), ...parts }
  return { on, verdict: mayI(nutsedgeLabel, situation(asked)) }
}

function decide(judged: readonly Judged[], parts: Partial<DecisionInput> = {}): Decision {
  return decideSecond({
    today: TODAY,
    judged,
    schedule: { judgeFrom: '2026-06-01', nextLook: '2026-06-22' },
    label: labelOn(parts.today ?? TODAY),
    identityDoubtful: false,
    ...parts,
  })
}

const whys = ({ reasons }: Decision) => reasons.map(({ id }) => id).filter((id) => id.startsWith('recheck.'))

/** Control that stays at 40 to 45 percent. */
const weak = visits(['2026-05-18', 30, { isFirstLook: true }], ['2026-06-01', 40], ['2026-06-15', 45])

describe('done', () => {
  test('when control has come as far as the crew wants and nothing grows back', () => {
    const decision = decide(visits(['2026-06-01', 80], ['2026-06-15', 95]))
    expect(decision).toMatchObject({ kind: 'done', outcome: 'answer' })
    expect(decision.latest).toMatchObject({ day: 42, control: { mean: '95' } })
    expect(whys(decision)).toEqual(['recheck.why-controlled'])
  })

  test('on the very day from which it can be judged', () => {
    const today = '2026-06-01'
    expect(decide(visits([today, 95]), { today }).kind).toBe('done')
    expect(decide(visits(['2026-05-31', 95]), { today }).kind).toBe('wait')
  })

  test('on one visit, since more cannot be wanted', () => {
    expect(decide(visits(['2026-06-15', 100])).kind).toBe('done')
  })

  test('whatever the label would say to more', () => {
    const label = labelOn(TODAY, { state: 'NC', turfs: ['creeping-bent'] })
    expect(label.verdict.outcome).toBe('refusal')
    expect(decide(visits(['2026-06-15', 100]), { label }).kind).toBe('done')
  })

  test('with a word on a hurt lawn', () => {
    const decision = decide(visits(['2026-06-15', 100, { injury: 4 }]))
    expect(decision).toMatchObject({ kind: 'done', outcome: 'heads-up' })
    expect(whys(decision)).toEqual(['recheck.why-injury', 'recheck.why-controlled'])
  })

  test.each([
    ['regrowth', { regrowth: true }, 'recheck.why-plant-back'],
    ['new seedlings', { seedlings: true }, 'recheck.why-seedlings'],
  ])('not with %s', (_, parts, reason) => {
    const decision = decide(visits(['2026-06-01', 100], ['2026-06-15', 100, parts]))
    expect(decision.kind).toBe('allowed')
    expect(whys(decision)).toContain(reason)
  })

  test('not while one of several plots lags behind', () => {
    const plots = [100, 100, 75].map((brownPercent, at) => ({ plot: `${at}`, brownPercent }))
    const judged = ['2026-06-01', '2026-06-15'].map((on) => judgeRating(rating({ on, plots }), TREATED_ON))
    expect(whys(decide(judged))).toContain('recheck.why-mostly-done')
  })
})

describe('wait', () => {
  const rows: readonly [
    what: string,
    judged: Judged[],
    parts: Partial<DecisionInput>,
    reason: string,
    until: string,
  ][] = [
    ['before anybody has looked', [], {}, 'no-rating', '2026-06-22'],
    [
      'too early for this weed',
      visits(['2026-05-25', 40]),
      { today: '2026-05-25', schedule: { judgeFrom: '2026-06-01', nextLook: null } },
      'too-early',
      '2026-06-01',
    ],
    [
      'dead early is no proof either',
      visits(['2026-05-25', 100]),
      { today: '2026-05-25' },
      'too-early',
      '2026-06-22',
    ],
    [
      'the first look, however late',
      visits(['2026-06-15', 20, { isFirstLook: true }]),
      {},
      'first-look',
      '2026-06-22',
    ],
    ['one visit shows no trend', visits(['2026-06-15', 40]), {}, 'one-rating', '2026-06-22'],
    ['still rising', visits(['2026-06-01', 40], ['2026-06-15', 50]), {}, 'moving', '2026-06-22'],
    [
      'still rising, no look planned',
      visits(['2026-06-01', 40], ['2026-06-15', 70]),
      { schedule: { judgeFrom: '2026-06-01', nextLook: null } },
      'moving',
      '2026-06-22',
    ],
    [
      'the untreated spot is brown too',
      visits(['2026-06-01', 40], ['2026-06-15', 60, { untreated: { brownPercent: 50 } }]),
      {},
      'cannot-judge',
      '2026-06-22',
    ],
    [
      'an old visit',
      visits(['2026-06-01', 40], ['2026-06-10', 40]),
      { today: '2026-06-25', schedule: { judgeFrom: '2026-06-01', nextLook: '2026-06-22' } },
      'stale',
      '2026-06-25',
    ],
  ]
  test.each(rows)('%s', (_, judged, parts, reason, until) => {
    const decision = decide(judged, parts)
    expect(decision).toMatchObject({ kind: 'wait', until })
    expect(whys(decision)).toContain(`recheck.why-${reason}`)
  })

  test('says which day the label opens, whatever is waited for', () => {
    const decision = decide([], { today: '2026-05-20', label: labelOn('2026-05-20') })
    expect(decision).toMatchObject({ kind: 'wait', labelOpensOn: '2026-06-01' })
  })

  test('tells of a hurt lawn at the first look', () => {
    const decision = decide(visits(['2026-05-18', 20, { isFirstLook: true, injury: 5 }]), {
      today: '2026-05-18',
    })
    expect(decision).toMatchObject({ kind: 'wait', outcome: 'heads-up' })
  })
})

describe('a second application allowed', () => {
  test('when it moves no more, is not enough, and the label leaves it open', () => {
    const decision = decide(weak)
    expect(decision).toMatchObject({ kind: 'allowed', outcome: 'answer', from: TODAY })
    expect(whys(decision)).toEqual(['recheck.why-not-enough', 'recheck.why-steady'])
  })

  test('with the amount that is left of the year', () => {
    const decision = decide(weak)
    if (decision.kind !== 'allowed') throw new Error(decision.kind)
    expect(decision.leftThisYear).toMatchObject([{ left: { value: '0.15' }, used: { value: '0.05' } }])
    expect(decision.ceilings.map(({ why }) => why)).toEqual(['rate-line', 'left-this-year'])
  })

  test('from a later day, when the label is asked for that day', () => {
    expect(decide(weak, { label: labelOn('2026-06-20') })).toMatchObject({
      kind: 'allowed',
      from: '2026-06-20',
    })
  })

  test('with a label’s heads-up it is one', () => {
    const label = labelOn(TODAY, { rate: dry('0.05 oz wt/1000 ft2') })
    expect(label.verdict.outcome).toBe('heads-up')
    expect(decide(weak, { label })).toMatchObject({ kind: 'allowed', outcome: 'heads-up' })
  })

  test('cannot be asked of a day that is over', () => {
    expect(() => decide(weak, { label: labelOn('2026-06-14') })).toThrow(
      'Cannot decide on 2026-06-15 by what the label allows on 2026-06-14',
    )
  })
})

describe('hold', () => {
  const lead = (parts: Partial<DecisionInput>, judged = weak) => decide(judged, parts)

  test('while it is not sure which weed it is', () => {
    const decision = lead({ identityDoubtful: true })
    expect(decision).toMatchObject({ kind: 'hold', outcome: 'hold' })
    expect(whys(decision)[0]).toBe('recheck.why-identity')
  })

  test.each([
    [9, 'allowed'],
    [6, 'allowed'],
    [5, 'hold'],
    [1, 'hold'],
  ])('turf injury at step %i: %s', (injury, kind) => {
    const judged = visits(['2026-06-01', 40], ['2026-06-15', 45, { injury }])
    expect(decide(judged).kind).toBe(kind)
  })

  test('the limit of turf injury is the crew’s', () => {
    const judged = visits(['2026-06-01', 40], ['2026-06-15', 45, { injury: 7 }])
    expect(decide(judged, { settings: { ...decideDefaults, leastInjuryStep: 8 } }).kind).toBe('hold')
  })

  test.each<[string, Judged[], string]>([
    [
      'two people saw different things on one day',
      visits(['2026-06-01', 40], ['2026-06-15', 30], ['2026-06-15', 70, { by: 'nila' }]),
      'disagree',
    ],
    ['control fell and nothing grew back', visits(['2026-06-01', 75], ['2026-06-15', 50]), 'dropped'],
    [
      'plots are far apart',
      [
        judgeRating(
          rating({
            on: '2026-06-15',
            plots: [
              { plot: '1', brownPercent: 90 },
              { plot: '2', brownPercent: 10 },
            ],
          }),
          TREATED_ON,
        ),
      ],
      'apart',
    ],
  ])('%s', (_, judged, reason) => {
    const decision = decide(judged)
    expect(decision.kind).toBe('hold')
    expect(whys(decision)).toContain(`recheck.why-${reason}`)
  })

  test('a hurt lawn is told beside visits that contradict', () => {
    const judged = visits(['2026-06-01', 75], ['2026-06-15', 50, { injury: 4 }])
    expect(whys(decide(judged))).toEqual(['recheck.why-dropped', 'recheck.why-injury'])
  })

  test('not when the fall is explained by regrowth', () => {
    expect(decide(visits(['2026-06-01', 75], ['2026-06-15', 50, { regrowth: true }])).kind).toBe('allowed')
  })

  test('when the label asks or holds', () => {
    const asks = labelOn(TODAY, { turfs: 'unknown' })
    expect(['question', 'hold']).toContain(asks.verdict.outcome)
    expect(decide(weak, { label: asks }).kind).toBe('hold')
  })
})

describe('refusal', () => {
  test('while the interval is not over, in the label’s own words', () => {
    const judged = visits(['2026-05-20', 40], ['2026-05-28', 42])
    const schedule = { judgeFrom: '2026-05-20', nextLook: null }
    const decision = decide(judged, { today: '2026-05-28', schedule, label: labelOn('2026-05-28') })
    expect(decision).toMatchObject({ kind: 'refusal', outcome: 'refusal', labelOpensOn: '2026-06-01' })
    expect(decision.reasons[0]).toMatchObject({
      id: 'label.interval',
      line: 'Wait 28 days before a second treatment.',
      page: '3',
    })
  })

  test('is stricter than any hold, and keeps the hold’s reasons', () => {
    const label = labelOn(TODAY, { rate: dry('0.16 oz wt/1000 ft2') })
    const decision = decide(weak, { label, identityDoubtful: true })
    expect(decision.kind).toBe('refusal')
    expect(whys(decision)).toContain('recheck.why-identity')
  })
})

describe('whatever was seen', () => {
  const percent = fc.integer({ min: 0, max: 100 })
  const anyVisit = fc.record({
    day: fc.integer({ min: 0, max: 90 }),
    brownPercent: percent,
    check: fc.constantFrom(0, 0, 5, 40),
    isFirstLook: fc.boolean(),
    injury: fc.integer({ min: 1, max: 9 }),
    regrowth: fc.boolean(),
    seedlings: fc.boolean(),
  })
  const anyInput = fc
    .record({
      seen: fc.array(anyVisit, { maxLength: 6 }),
      today: fc.integer({ min: 0, max: 120 }),
      ahead: fc.integer({ min: 0, max: 40 }),
      judgeFrom: fc.integer({ min: 7, max: 42 }),
      used: fc.integer({ min: 10, max: 200 }),
      wanted: fc.constantFrom('0.05', '0.1', '0.113', '0.15'),
      identityDoubtful: fc.boolean(),
    })
    .map(
      ({ seen, used, wanted, identityDoubtful, ...days }): DecisionInput & { readonly verdict: Verdict } => {
        const today = addDays(TREATED_ON, days.today)
        const on = addDays(today, days.ahead)
        const label = labelOn(on, {
          treatments: [treatment(nutsedgeLabel, TREATED_ON, `${used / 1000} oz wt/1000 ft2`)],
          rate: dry(`${wanted} oz wt/1000 ft2`),
        })
        const judged = seen
          .filter(({ day }) => day <= days.today)
          .map(({ day, brownPercent, check, ...rest }) =>
            judgeRating(
              rating({
                on: addDays(TREATED_ON, day),
                plots: [{ plot: '1', brownPercent }],
                untreated: { brownPercent: check },
                ...rest,
              }),
              TREATED_ON,
            ),
          )
        const schedule = { judgeFrom: addDays(TREATED_ON, days.judgeFrom), nextLook: null }
        return { today, judged, schedule, label, identityDoubtful, verdict: label.verdict }
      },
    )

  test('nothing is allowed before the label’s interval, beyond its year, or against any refusal', () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const decision = decideSecond(input)
        if (decision.kind !== 'allowed') return
        expect(daysBetween(TREATED_ON, decision.from)).toBeGreaterThanOrEqual(28)
        expect(decision.from >= input.today).toBe(true)
        expect(decision.reasons.every(({ outcome }) => outcome === 'answer' || outcome === 'heads-up')).toBe(
          true,
        )
        expect(['answer', 'heads-up']).toContain(input.verdict.outcome)
        expect(input.identityDoubtful).toBe(false)
      }),
      { numRuns: 400 },
    )
  })

  test('nothing is decided before the weed’s group can be judged, and nobody waits for a day that is over', () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const decision = decideSecond(input)
        if (decision.kind === 'wait') expect(decision.until >= input.today).toBe(true)
        else expect((decision.latest?.on ?? '') >= input.schedule.judgeFrom).toBe(true)
      }),
      { numRuns: 400 },
    )
  })

  test('a refusal by the label is never told as a hold', () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        if (input.verdict.outcome === 'refusal')
          expect(['hold', 'allowed']).not.toContain(decideSecond(input).kind)
      }),
      { numRuns: 400 },
    )
  })

  test('all five ways are taken', () => {
    const kinds = new Set(
      fc.sample(anyInput, { numRuns: 3000, seed: 7 }).map((input) => decideSecond(input).kind),
    )
    expect(kinds).toEqual(new Set(['done', 'wait', 'allowed', 'hold', 'refusal']))
  })
})
