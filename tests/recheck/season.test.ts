import { describe, expect, test } from 'vitest'
import type { Decision } from '#src/efficacy/decision.ts'
import { decideSecond } from '#src/efficacy/decision.ts'
import type { Judged } from '#src/efficacy/judge.ts'
import { judgeRating } from '#src/efficacy/judge.ts'
import { mayI } from '#src/label/allow.ts'
import type { PastTreatment } from '#src/label/situation.ts'
import { next } from '#src/recheck/next.ts'
import type { LookPlan } from '#src/recheck/plan.ts'
import { lookOn, nextLookOf } from '#src/recheck/plan.ts'
import { planLooks } from '#src/recheck/schedule.ts'
import { nutsedgeLabel, rating } from '../efficacy/build.ts'
import { dry, situation, treatment } from '../label/build.ts'
import { mondayToFriday, table } from './build.ts'

/** One strip with two plots and an untreated spot: 0.087 oz in May, so that the full rate of 0.113 oz is left. */
const MAY = '2026-05-04'
const FIRST = '0.087 oz wt/1000 ft2'
const FULL = '0.113 oz wt/1000 ft2'
const done = (on: string, rate: string) => treatment(nutsedgeLabel, on, rate, { areaFt2: '600' })

/** What a crew knows of the strip: the plan of looks, and the visits so far. */
interface Strip {
  readonly plan: LookPlan
  readonly judged: readonly Judged[]
}

function start(treatedOn: string): Strip {
  const request = {
    treatedOn,
    group: 'sedge',
    lifecycles: ['perennial'],
    secondMeant: true,
    intervalDays: 28,
  } as const
  return { plan: planLooks(request, table, mondayToFriday), judged: [] }
}

/** A visit: it closes the look that it answers, and is judged. */
function visit({ plan, judged }: Strip, on: string, percents: readonly number[]): Strip {
  const look = lookOn(plan, on)
  if (look === null) throw new Error('no look is open')
  const step = next(plan, { kind: 'looked', look: look.id, on, by: 'bex' }, mondayToFriday)
  if (!step.ok) throw new Error(step.error.kind)
  const plots = percents.map((brownPercent, at) => ({ plot: `flag ${at + 1}`, brownPercent }))
  const seen = rating({ on, plots, isFirstLook: look.purpose === 'signs' })
  return { plan: step.value, judged: [...judged, judgeRating(seen, plan.treatedOn)] }
}

function decide({ plan, judged }: Strip, today: string, treatments: readonly PastTreatment[]): Decision {
  const verdict = mayI(
    nutsedgeLabel,
    situation({ today, lastConfirmedOn: '2026-04-01', rate: dry(FULL), treatments }),
  )
  return decideSecond({
    today,
    judged,
    schedule: { judgeFrom: plan.judgeFrom, nextLook: nextLookOf(plan)?.visitOn ?? null },
    label: { on: today, verdict },
    identityDoubtful: false,
  })
}

describe('yellow nutsedge through a season', () => {
  const fromMay = [done(MAY, FIRST)]
  const first = visit(start(MAY), '2026-05-18', [25, 30])
  const scored = visit(first, '2026-06-01', [50, 60])
  const decided = visit(scored, '2026-06-15', [50, 65])

  test('the first look, after two weeks, decides nothing', () => {
    expect(decide(first, '2026-05-18', fromMay)).toMatchObject({ kind: 'wait', until: '2026-06-01' })
  })

  test('after four weeks it still works: wait for the next look', () => {
    expect(decide(scored, '2026-06-01', fromMay)).toMatchObject({ kind: 'wait', until: '2026-06-15' })
  })

  test('after six weeks it moves no more: a second application is allowed', () => {
    expect(decide(decided, '2026-06-15', fromMay)).toMatchObject({ kind: 'allowed', from: '2026-06-15' })
  })

  test('a strip that was already at rest is allowed at the label’s interval, not a day before', () => {
    const rested = visit(visit(start(MAY), '2026-05-29', [50, 55]), '2026-06-01', [52, 55])
    expect(decide(rested, '2026-06-01', fromMay)).toMatchObject({ kind: 'allowed', from: '2026-06-01' })
    const early = {
      plan: { ...rested.plan, judgeFrom: '2026-05-30' },
      judged: rested.judged.map((one) => ({ ...one, on: '2026-05-31' })),
    }
    expect(decide(early, '2026-05-31', fromMay)).toMatchObject({
      kind: 'refusal',
      labelOpensOn: '2026-06-01',
    })
  })

  test('after the second application the year is used up: the third is refused, in the label’s words', () => {
    const both = [...fromMay, done('2026-06-15', FULL)]
    const again = visit(
      visit(visit(start('2026-06-15'), '2026-06-29', [40, 45]), '2026-07-13', [70, 70]),
      '2026-07-27',
      [72, 74],
    )
    const decision = decide(again, '2026-07-27', both)
    expect(decision.kind).toBe('refusal')
    expect(decision.reasons[0]).toMatchObject({
      id: 'label.above-year',
      line: 'At most 0.2 oz per 1,000 sq ft in a year.',
      with: { left: { value: '0' } },
    })
  })
})
