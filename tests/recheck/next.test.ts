import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { addDays } from '#src/label/day.ts'
import type { LookEvent } from '#src/recheck/next.ts'
import { next } from '#src/recheck/next.ts'
import type { LookPlan } from '#src/recheck/plan.ts'
import { lookOn, nextLookOf } from '#src/recheck/plan.ts'
import { planLooks } from '#src/recheck/schedule.ts'
import { anyCrew, anyRequest, everyDay, isOrdered, mondayToFriday, plan, table, windows } from './build.ts'

/** first 18-24 May, score 1-7 June, decide 15-22 June, then monthly. */
const sedge = plan({ intervalDays: 28 }, mondayToFriday)

function follow(from: LookPlan, ...events: LookEvent[]): LookPlan {
  return events.reduce((state, event) => {
    const step = next(state, event, mondayToFriday)
    if (!step.ok) throw new Error(JSON.stringify(step.error))
    return step.value
  }, from)
}

const problem = (event: LookEvent, from = sedge) => {
  const step = next(from, event, mondayToFriday)
  return step.ok ? null : step.error
}

describe('a look that was taken', () => {
  const looked = follow(sedge, { kind: 'looked', look: 'first', on: '2026-05-20', by: 'bex' })

  test('is closed and ends its window on that day', () => {
    expect(looked.looks[0]).toMatchObject({
      to: '2026-05-20',
      visitOn: '2026-05-20',
      status: { kind: 'looked', on: '2026-05-20', by: 'bex' },
    })
    expect(nextLookOf(looked)?.id).toBe('score')
  })

  test('closes earlier looks that nobody took', () => {
    const late = follow(sedge, { kind: 'looked', look: 'score', on: '2026-06-03', by: 'bex' })
    expect(late.looks[0]?.status).toEqual({ kind: 'overtaken', on: '2026-06-03', by: 'bex', lookId: 'score' })
  })

  test('cannot be taken twice, or before the application', () => {
    const again = { kind: 'looked', look: 'first', on: '2026-05-21', by: 'nila' } as const
    expect(problem(again, looked)?.kind).toBe('closed')
    expect(problem({ ...again, on: '2026-05-03' })).toEqual({
      kind: 'before-treatment',
      treatedOn: '2026-05-04',
    })
  })

  test('leaves the plan it came from as it was', () => {
    expect(sedge.looks[0]?.status.kind).toBe('planned')
  })

  test.each([
    ['2026-05-06', 'first'],
    ['2026-05-19', 'first'],
    ['2026-06-02', 'score'],
    ['2026-06-10', 'score'],
    ['2026-06-16', 'decide'],
  ])('a visit on %s answers the look %s', (day, look) => {
    expect(lookOn(sedge, day)?.id).toBe(look)
  })
})

describe('a look that is skipped', () => {
  const skip = {
    kind: 'skipped',
    look: 'first',
    on: '2026-05-18',
    by: 'bex',
    reason: ' gate locked ',
  } as const

  test('keeps the reason', () => {
    expect(follow(sedge, skip).looks[0]?.status).toEqual({
      kind: 'skipped',
      on: '2026-05-18',
      by: 'bex',
      reason: 'gate locked',
    })
  })

  test('needs one', () => {
    expect(problem({ ...skip, reason: '  ' })).toEqual({ kind: 'reason-needed' })
  })
})

describe('a look that is moved', () => {
  test('within its window only changes the day', () => {
    const moved = follow(sedge, { kind: 'moved', look: 'first', to: '2026-05-21' })
    expect(moved.looks[0]).toMatchObject({ from: '2026-05-18', to: '2026-05-24', visitOn: '2026-05-21' })
  })

  test('past its window takes the window along, and later looks give way', () => {
    const moved = follow(sedge, { kind: 'moved', look: 'first', to: '2026-06-08' })
    expect(windows(moved).slice(0, 3)).toEqual([
      'first 2026-05-18..2026-06-08',
      'score 2026-06-09..2026-06-09',
      'decide 2026-06-15..2026-06-22',
    ])
    expect(moved.looks[1]?.visitOn).toBe('2026-06-09')
  })

  test('is reminded of afresh', () => {
    const moved = follow(
      sedge,
      { kind: 'reminded', look: 'first', on: '2026-05-18', to: 'owner' },
      { kind: 'moved', look: 'first', to: '2026-05-21' },
    )
    expect(moved.looks[0]?.reminders).toEqual([])
  })

  test.each<[string, string, string, object]>([
    ['onto a Saturday', 'first', '2026-05-23', { kind: 'day-off', next: '2026-05-25' }],
    [
      'into the window of the look before it',
      'score',
      '2026-05-22',
      { kind: 'before-earlier-look', earliest: '2026-05-25' },
    ],
    [
      'to the day of the application',
      'first',
      '2026-05-04',
      { kind: 'before-earlier-look', earliest: '2026-05-05' },
    ],
  ])('not %s', (_, look, to, expected) => {
    expect(problem({ kind: 'moved', look, to })).toEqual(expected)
  })

  test('not before the label’s interval, when it decides', () => {
    const long = plan({ intervalDays: 42 }, mondayToFriday)
    const event = { kind: 'moved', look: 'decide', to: '2026-06-12' } as const
    expect(problem(event, long)).toEqual({ kind: 'before-interval', notBefore: '2026-06-15' })
    expect(problem(event)).toBeNull()
  })
})

test('a look that is handed over belongs to somebody else and is reminded of afresh', () => {
  const handed = follow(
    sedge,
    { kind: 'reminded', look: 'first', on: '2026-05-18', to: 'owner' },
    { kind: 'handed-over', look: 'first', to: 'nila' },
  )
  expect(handed.looks[0]).toMatchObject({ handedTo: 'nila', reminders: [] })
})

test('a look that is not in the plan is named', () => {
  expect(problem({ kind: 'handed-over', look: 'tenth', to: 'nila' })).toEqual({
    kind: 'unknown-look',
    look: 'tenth',
  })
})

describe('whatever happens to a plan', () => {
  const anyEvent = fc.record({
    kind: fc.constantFrom('looked', 'skipped', 'moved', 'handed-over', 'reminded'),
    at: fc.nat({ max: 8 }),
    days: fc.integer({ min: -5, max: 150 }),
  })

  test('windows stay in order, and the deciding look stays behind the interval', () => {
    fc.assert(
      fc.property(anyRequest, anyCrew, fc.array(anyEvent, { maxLength: 12 }), (asked, crew, events) => {
        let state = planLooks(asked, table, crew)
        for (const { kind, at, days } of events) {
          const look = state.looks[at % state.looks.length]?.id ?? ''
          const on = addDays(asked.treatedOn, days)
          const event = { kind, look, on, to: kind === 'reminded' ? 'owner' : on, by: 'bex', reason: 'rain' }
          const step = next(state, event as LookEvent, crew)
          if (step.ok) state = step.value
          expect(isOrdered(state)).toBe(true)
          const decides = state.looks.find(({ purpose }) => purpose === 'decide')
          if (state.notBefore !== undefined && decides?.status.kind === 'planned')
            expect(decides.from >= state.notBefore).toBe(true)
        }
      }),
      { numRuns: 200 },
    )
  })

  test('an everyday crew may move a look to any day after the one before it', () => {
    const free = plan({}, everyDay)
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100 }), (days) => {
        const step = next(free, { kind: 'moved', look: 'first', to: addDays('2026-05-04', days) }, everyDay)
        expect(step.ok).toBe(true)
      }),
    )
  })
})
