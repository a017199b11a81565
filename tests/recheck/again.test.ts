import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { addDays } from '#src/label/day.ts'
import { lookAgain } from '#src/recheck/again.ts'
import { next } from '#src/recheck/next.ts'
import type { LookPlan } from '#src/recheck/plan.ts'
import { isPlanned, lookRatedOn, nextLookOf } from '#src/recheck/plan.ts'
import { planLooks } from '#src/recheck/schedule.ts'
import { anyCrew, anyRequest, isOrdered, mondayToFriday, plan, table, windows } from './build.ts'

/** Perennial grass treated on Monday, 4 May: first 11 to 18 May, score 19 to 25 May, decide 1 to 8 June, regrowth 15 to 22 June. */
const grass = plan({ group: 'grass' }, mondayToFriday)

/** The plan after a look on a day. */
function visited(from: LookPlan, look: string, on: string, isJudged: boolean): LookPlan {
  const step = next(from, { kind: 'looked', look, on, by: 'bex' }, mondayToFriday)
  return lookAgain(step.ok ? step.value : from, { look, on, isJudged }, mondayToFriday)
}

describe('a visit that could not be judged', () => {
  test('is made good about a week later, on a workday, and asks the same', () => {
    const again = nextLookOf(visited(grass, 'decide', '2026-06-01', false))
    expect(again).toMatchObject({
      id: 'decide-again',
      purpose: 'decide',
      from: '2026-06-02',
      visitOn: '2026-06-08',
      again: '2026-06-01',
    })
    expect(again?.lookFor).toEqual(grass.looks.find(({ id }) => id === 'decide')?.lookFor)
  })

  test('that comes sooner than planned still answers it', () => {
    expect(lookRatedOn(visited(grass, 'decide', '2026-06-01', false), '2026-06-03')?.id).toBe('decide-again')
  })

  test('and cannot be judged once more comes again once more', () => {
    const once = visited(grass, 'decide', '2026-06-01', false)
    const twice = visited(once, 'decide-again', '2026-06-03', false)
    expect(nextLookOf(twice)).toMatchObject({ purpose: 'decide', visitOn: '2026-06-10', again: '2026-06-03' })
  })

  test('is asked along with a look that stands so soon anyway', () => {
    const late = visited(grass, 'decide', '2026-06-08', false)
    expect(windows(late)).toEqual(windows(visited(grass, 'decide', '2026-06-08', true)))
    expect(nextLookOf(late)).toMatchObject({ id: 'regrowth', purpose: 'decide', again: '2026-06-08' })
  })

  test('of the first look changes nothing: it judges no weed', () => {
    expect(visited(grass, 'first', '2026-05-12', false)).toEqual(visited(grass, 'first', '2026-05-12', true))
  })

  test('is taken back when the same day is rated again and can be judged', () => {
    const blind = visited(grass, 'decide', '2026-06-01', false)
    expect(
      lookAgain(blind, { look: 'decide', on: '2026-06-01', isJudged: true }, mondayToFriday).looks,
    ).toHaveLength(grass.looks.length)
  })

  test('leaves looks in order and apart, and one to come, whatever the plan, the crew and the day', () => {
    fc.assert(
      fc.property(anyRequest, anyCrew, fc.nat({ max: 7 }), fc.nat({ max: 20 }), (asked, crew, at, late) => {
        const made = planLooks(asked, table, crew)
        const look = made.looks[at % made.looks.length]
        if (look === undefined || look.purpose === 'signs') return
        const on = addDays(look.from, late)
        if (lookRatedOn(made, on) !== look) return
        const step = next(made, { kind: 'looked', look: look.id, on, by: 'bex' }, crew)
        if (!step.ok) throw new Error(step.error.kind)
        const after = lookAgain(step.value, { look: look.id, on, isJudged: false }, crew)
        expect(isOrdered(after)).toBe(true)
        const again = after.looks.filter((one) => one.again === on)
        expect(again.map(isPlanned)).toEqual([true])
        expect(lookAgain(after, { look: look.id, on, isJudged: false }, crew)).toEqual(after)
      }),
      { numRuns: 300 },
    )
  })
})

describe('a rating before the next window', () => {
  test.each([
    ['2026-05-06', null],
    ['2026-05-12', 'first'],
    ['2026-05-26', 'score'],
  ])('with nothing taken: on %s it answers %s', (on, look) => {
    expect(lookRatedOn(grass, on)?.id ?? null).toBe(look)
  })

  test('answers none, between two windows, and the later look stays', () => {
    const scored = visited(grass, 'score', '2026-05-20', true)
    expect(lookRatedOn(scored, '2026-05-27')).toBeNull()
    expect(lookRatedOn(scored, '2026-06-01')?.id).toBe('decide')
  })

  test('is no look that was taken, either', () => {
    const early = { kind: 'looked', look: 'decide', on: '2026-05-27', by: 'bex' } as const
    expect(next(grass, early, mondayToFriday)).toEqual({
      ok: false,
      error: { kind: 'too-early', from: '2026-06-01' },
    })
  })
})
