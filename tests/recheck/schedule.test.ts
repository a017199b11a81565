import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { addDays, daysBetween } from '#src/label/day.ts'
import type { CrewDays } from '#src/recheck/place.ts'
import { LookPlan } from '#src/recheck/plan.ts'
import type { LookRequest } from '#src/recheck/schedule.ts'
import { planLooks, planSingleLook } from '#src/recheck/schedule.ts'
import { isWorkday } from '#src/recheck/workdays.ts'
import { anyCrew, anyRequest, everyDay, isOrdered, mondayToFriday, plan, table, windows } from './build.ts'

/** Days after the application, as the windows of a plan. */
const spans = (parts: Partial<LookRequest>) => {
  const { looks, treatedOn } = plan(parts)
  return looks.map(
    ({ id, from, to }) => `${id} ${daysBetween(treatedOn, from)}-${daysBetween(treatedOn, to)}`,
  )
}

describe('looks by weed group', () => {
  test.each<[string, Partial<LookRequest>, string[]]>([
    [
      'sedge',
      {},
      [
        'first 14-20',
        'score 28-34',
        'decide 42-49',
        'monthly-2 60-67',
        'monthly-3 90-97',
        'monthly-4 120-127',
        'monthly-5 150-157',
        'monthly-6 180-187',
      ],
    ],
    [
      'perennial grass',
      { group: 'grass' },
      ['first 7-14', 'score 15-21', 'decide 28-35', 'regrowth 42-49', 'green-up 332-392'],
    ],
    [
      'annual grass',
      { group: 'grass', lifecycles: ['summer-annual'] },
      ['first 7-13', 'score 14-20', 'decide 21-28', 'seedlings 42-49'],
    ],
    ['broadleaf in spring', { group: 'broadleaf' }, ['first 7-13', 'score 14-21', 'decide 28-35']],
    [
      'spot kill before seeding on day 40',
      { nonSelective: true, seedingOn: addDays('2026-05-04', 45) },
      ['first 7-13', 'score 14-21', 'decide 28-35', 'seeding 38-44'],
    ],
  ])('%s', (_, parts, expected) => {
    expect(spans(parts)).toEqual(expected)
  })

  test('a broadleaf treated from September on is looked at next spring too', () => {
    expect(windows(plan({ group: 'broadleaf', treatedOn: '2026-08-31' }))).toHaveLength(3)
    expect(windows(plan({ group: 'broadleaf', treatedOn: '2026-09-01' })).at(-1)).toBe(
      'next-spring 2027-04-01..2027-05-15',
    )
  })

  test('a monthly look goes along with the score that stands there: one visit, not two', () => {
    const score = plan().looks.find(({ id }) => id === 'score')
    expect(score?.lookFor).toContain('new-shoots')
  })

  test('looks each month end with the season', () => {
    const { looks } = plan({ treatedOn: '2026-09-20' })
    expect(looks.map(({ id }) => id)).toEqual(['first', 'score', 'decide'])
  })

  test('the result can be judged from the day that its row gives', () => {
    expect(plan().judgeFrom).toBe('2026-06-01')
    expect(plan({ group: 'broadleaf' }).judgeFrom).toBe('2026-05-25')
  })
})

describe('the label’s interval', () => {
  test('moves the look that decides, where a second application is meant', () => {
    const { looks, notBefore } = plan({ group: 'grass', intervalDays: 42 })
    expect(notBefore).toBe('2026-06-15')
    expect(looks.find(({ purpose }) => purpose === 'decide')).toMatchObject({
      from: '2026-06-15',
      to: '2026-06-22',
    })
  })

  test('moves nothing where none is meant, or where the usual day is later anyway', () => {
    expect(windows(plan({ intervalDays: 60, secondMeant: false }))).toEqual(windows(plan()))
    expect(windows(plan({ intervalDays: 28 }))).toEqual(windows(plan()))
  })
})

describe('the day of the visit', () => {
  test('is the planned round when it comes by in the window', () => {
    // Fridays: 22 May 2026 is one.
    const crew = { ...mondayToFriday, round: { kind: 'every', days: 7, from: '2026-05-01' } } as const
    expect(plan({}, crew).looks[0]).toMatchObject({
      from: '2026-05-18',
      to: '2026-05-24',
      visitOn: '2026-05-22',
    })
  })

  test('is the first workday when no round comes by', () => {
    const crew: CrewDays = { ...mondayToFriday, round: { kind: 'on', days: ['2026-07-01'] } }
    expect(plan({}, crew).looks[0]?.visitOn).toBe('2026-05-18')
  })

  test('skips a weekend and days off', () => {
    // Treated on Saturday 2 May: the window begins on Saturday 16 May, and Monday the 18th is off.
    const crew = { workdays: { weekdays: [1, 2, 3, 4, 5], daysOff: ['2026-05-18'] } }
    expect(plan({ treatedOn: '2026-05-02' }, crew).looks[0]?.visitOn).toBe('2026-05-19')
  })

  test('a week of rest lengthens the window to the next workday, and the next look gives way', () => {
    const daysOff = Array.from({ length: 20 }, (_, at) => addDays('2026-05-11', at))
    const made = plan({ group: 'broadleaf' }, { workdays: { weekdays: [1, 2, 3, 4, 5], daysOff } })
    expect(windows(made)).toEqual([
      'first 2026-05-11..2026-06-01',
      'score 2026-06-02..2026-06-02',
      'decide 2026-06-03..2026-06-08',
    ])
  })
})

test('a plant that was held is looked at again once, by itself', () => {
  const made = planSingleLook(
    { heldOn: '2026-05-04', from: '2026-05-09', to: '2026-05-16', lookFor: ['seed-head'] },
    mondayToFriday,
  )
  expect(made.looks).toMatchObject([{ purpose: 'identify', visitOn: '2026-05-11', lookFor: ['seed-head'] }])
  expect(LookPlan.parse(JSON.parse(JSON.stringify(made)))).toEqual(made)
})

describe('whatever is treated by whatever crew', () => {
  test('windows stand in order, hold their visit, and begin after the application', () => {
    fc.assert(
      fc.property(anyRequest, anyCrew, (asked, crew) => {
        const made = planLooks(asked, table, crew)
        expect(isOrdered(made)).toBe(true)
        expect(made.looks.every(({ from }) => from > asked.treatedOn)).toBe(true)
        expect(LookPlan.parse(JSON.parse(JSON.stringify(made)))).toEqual(made)
      }),
    )
  })

  test('visits fall on workdays', () => {
    fc.assert(
      fc.property(anyRequest, anyCrew, (asked, crew) => {
        for (const { visitOn } of planLooks(asked, table, crew).looks)
          expect(isWorkday(visitOn, crew.workdays)).toBe(true)
      }),
    )
  })

  test('no look decides on a second application before the interval', () => {
    fc.assert(
      fc.property(anyRequest, anyCrew, (asked, crew) => {
        fc.pre(asked.secondMeant && asked.intervalDays !== undefined)
        const decides = planLooks(asked, table, crew).looks.filter(({ purpose }) => purpose === 'decide')
        expect(decides).toHaveLength(1)
        for (const { from } of decides)
          expect(daysBetween(asked.treatedOn, from)).toBeGreaterThanOrEqual(asked.intervalDays ?? 0)
      }),
    )
  })

  test('the first look is never the one that decides', () => {
    fc.assert(
      fc.property(anyRequest, (asked) => {
        expect(planLooks(asked, table, everyDay).looks[0]?.purpose).not.toBe('decide')
      }),
    )
  })
})
