import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { dayIn, momentIn } from '#src/desk/clock.ts'
import { addDays } from '#src/label/day.ts'
import type { OwnedPlan } from '#src/recheck/due.ts'
import { next } from '#src/recheck/next.ts'
import type { Reminder } from '#src/recheck/plan.ts'
import type { Crewed, Morning } from '#src/recheck/remind.ts'
import { isAway, planMornings, turnOf } from '#src/recheck/remind.ts'
import { WorkTime } from '#src/recheck/when.ts'
import { mondayToFriday, plan } from './build.ts'

const time = { momentIn, dayIn }
const work = WorkTime.parse({ zone: 'America/New_York' })
const crew: Crewed = {
  people: ['bex', 'nila', 'odalys'].map((person) => ({ person, work })),
  lead: 'odalys',
}

function owned(name: string, owner: string, treatedOn = '2026-05-04'): OwnedPlan {
  return { plan: name, site: 'hill', area: name, owner, looks: plan({ treatedOn }, mondayToFriday) }
}

const everyDayFrom = (day: string, days: number) => Array.from({ length: days }, (_, at) => addDays(day, at))
const at = (now: string) => ({ nowMs: Date.parse(now), time })
const brief = ({ person, kind, looks }: Morning) =>
  `${kind} for ${person}: ${looks.map(({ due, turn }) => `${due.plan} ${turn}`).join(', ')}`

describe('whose turn it is', () => {
  const workdays = work.workdays
  const turn = (today: string, reminders: Reminder[]) =>
    turnOf({ visitOn: '2026-05-18', reminders }, today, { workdays })
  const owner = (on: string): Reminder => ({ on, to: 'owner' })

  // Monday 18 May 2026 is the day of the visit.
  test.each<[string, string, Reminder[], ReturnType<typeof turn>]>([
    ['nobody before the day', '2026-05-17', [], null],
    ['the owner on the day', '2026-05-18', [], 'owner'],
    ['nobody the day after', '2026-05-19', [owner('2026-05-18')], null],
    ['the owner once more after two workdays', '2026-05-20', [owner('2026-05-18')], 'owner-again'],
    ['nobody over a weekend', '2026-05-24', [owner('2026-05-22')], null],
    ['the lead after two more', '2026-05-22', [owner('2026-05-18'), owner('2026-05-20')], 'lead'],
    [
      'nobody after the lead',
      '2026-06-30',
      [owner('2026-05-18'), owner('2026-05-20'), { on: '2026-05-22', to: 'lead' }],
      null,
    ],
  ])('%s', (_, today, reminders, expected) => {
    expect(turn(today, reminders)).toBe(expected)
  })
})

describe('an owner who is off', () => {
  const others = work.workdays
  const away = (today: string, to: string, daysOff: readonly string[], weekdays = [1, 2, 3, 4, 5]) =>
    isAway({ to }, today, { owner: { weekdays, daysOff: [...daysOff] }, others })
  const week = ['2026-05-18', '2026-05-19', '2026-05-20', '2026-05-21', '2026-05-22']

  test.each<[string, boolean, boolean]>([
    ['a week off, and the window ends in it', away('2026-05-18', '2026-05-22', week), true],
    ['back before the window ends', away('2026-05-18', '2026-05-26', week), false],
    ['back before anybody would be asked again', away('2026-05-21', '2026-05-22', week), false],
    ['at work that day', away('2026-05-25', '2026-05-22', week), false],
    ['only on Mondays', away('2026-05-19', '2026-05-22', [], [1]), true],
    ['gone for more than a year', away('2026-05-18', '2026-05-22', everyDayFrom('2026-05-18', 401)), true],
  ])('%s', (_, is, expected) => {
    expect(is).toBe(expected)
  })
})

describe('mornings', () => {
  test('bring one message a person with everything in it, at the start of work', () => {
    const plans = [owned('a', 'bex'), owned('b', 'bex'), owned('c', 'nila')]
    const mornings = planMornings(plans, crew, at('2026-05-18T05:00:00Z'))
    expect(mornings.map(brief)).toEqual(['morning for bex: a owner, b owner', 'morning for nila: c owner'])
    expect(mornings.map(({ atMs }) => new Date(atMs).toISOString())).toEqual([
      '2026-05-18T11:00:00.000Z',
      '2026-05-18T11:00:00.000Z',
    ])
  })

  test('bring nothing when nothing is due', () => {
    expect(planMornings([owned('a', 'bex')], crew, at('2026-05-15T15:00:00Z'))).toEqual([])
  })

  test('planned twice have the same key', () => {
    const keys = ['05:00', '11:30'].map(
      (hour) => planMornings([owned('a', 'bex')], crew, at(`2026-05-18T${hour}:00Z`))[0]?.key,
    )
    expect(keys).toEqual(['recheck:bex:2026-05-18', 'recheck:bex:2026-05-18'])
  })

  test('who had a message today hears the rest on the next workday', () => {
    const [morning] = planMornings(
      [owned('a', 'bex')],
      { ...crew, sentKeys: new Set(['recheck:bex:2026-05-18', 'recheck:bex:2026-05-19']) },
      at('2026-05-18T13:00:00Z'),
    )
    expect(morning).toMatchObject({ day: '2026-05-20', atMs: Date.parse('2026-05-20T11:00:00Z') })
  })

  test('after days of downtime bring one summary', () => {
    const plans = [owned('a', 'bex'), owned('b', 'bex', '2026-05-06'), owned('c', 'bex', '2026-05-11')]
    const mornings = planMornings(plans, crew, at('2026-05-28T13:00:00Z'))
    expect(mornings.map(brief)).toEqual(['summary for bex: a owner, b owner, c owner'])
  })

  test('are no summary on the day itself, and one a single morning later', () => {
    const kinds = ['2026-05-18', '2026-05-19'].map(
      (day) => planMornings([owned('a', 'bex')], crew, at(`${day}T13:00:00Z`))[0]?.kind,
    )
    expect(kinds).toEqual(['morning', 'summary'])
  })

  test('a look of somebody who has left goes to the lead', () => {
    expect(planMornings([owned('a', 'gone')], crew, at('2026-05-18T11:00:00Z')).map(brief)).toEqual([
      'morning for odalys: a owner',
    ])
  })

  test('an evening’s plan goes out on the next workday', () => {
    const [morning] = planMornings([owned('a', 'bex')], crew, at('2026-05-22T22:00:00Z'))
    expect(morning).toMatchObject({ day: '2026-05-25', kind: 'summary' })
  })
})

/** Sends whatever is due at each of these moments, keeping what was sent. */
function live(start: readonly OwnedPlan[], moments: readonly number[]): Morning[] {
  const sent: Morning[] = []
  let plans = start
  for (const nowMs of moments) {
    for (const morning of planMornings(plans, crew, { nowMs, time })) {
      if (morning.atMs !== nowMs) continue
      sent.push(morning)
      plans = plans.map((one) => {
        const found = morning.looks.find(({ due }) => due.plan === one.plan)
        if (found === undefined) return one
        const to = found.turn === 'lead' ? 'lead' : 'owner'
        const step = next(
          one.looks,
          { kind: 'reminded', look: found.due.look.id, on: morning.day, to },
          mondayToFriday,
        )
        return step.ok ? { ...one, looks: step.value } : one
      })
    }
  }
  return sent
}

const HOUR_MS = 3_600_000
const from = Date.parse('2026-05-16T11:00:00Z')

test('an unanswered look is heard of three times: the owner, the owner again, the lead', () => {
  const hours = Array.from({ length: 15 * 24 }, (_, hour) => from + hour * HOUR_MS)
  const sent = live([owned('a', 'bex')], hours)
  expect(sent.map((one) => `${one.day} ${brief(one)}`)).toEqual([
    '2026-05-18 morning for bex: a owner',
    '2026-05-20 morning for bex: a owner-again',
    '2026-05-22 morning for odalys: a lead',
  ])
})

test('however irregularly somebody asks, nobody hears twice on one day or about one look more than three times', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 1, max: 100 }), { minLength: 1, maxLength: 60 }),
      fc.integer({ min: 1, max: 6 }),
      (pauses, count) => {
        let hour = 0
        const moments = pauses.map((pause) => {
          hour += pause
          return from + hour * HOUR_MS
        })
        const plans = Array.from({ length: count }, (_, n) =>
          owned(`p${n}`, n % 2 ? 'bex' : 'nila', addDays('2026-05-01', n)),
        )
        const sent = live(plans, moments)
        const keys = sent.map(({ key }) => key)
        expect(new Set(keys).size).toBe(keys.length)
        const heard = sent.flatMap(({ looks }) => looks.map(({ due }) => `${due.plan} ${due.look.id}`))
        for (const look of new Set(heard))
          expect(heard.filter((one) => one === look).length).toBeLessThanOrEqual(3)
      },
    ),
    { numRuns: 60 },
  )
})
