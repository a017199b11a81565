import { describe, expect, test } from 'vitest'
import { addDays } from '#src/label/day.ts'
import type { OwnedPlan } from '#src/recheck/due.ts'
import { listDue, summarizeDue } from '#src/recheck/due.ts'
import type { LookPlan } from '#src/recheck/plan.ts'
import { mondayToFriday, plan } from './build.ts'

/** Looks from 18 May, 1 June and 15 June 2026 on. */
const sedge = plan({}, mondayToFriday)

function owned(name: string, looks: LookPlan, parts: Partial<OwnedPlan> = {}): OwnedPlan {
  return { plan: name, site: 'hill', area: 'front', owner: 'bex', looks, ...parts }
}

const plans = [
  owned('a', sedge),
  owned('b', plan({ group: 'broadleaf' }, mondayToFriday), { site: 'dale' }),
  owned('c', sedge, { owner: 'nila', site: 'dale' }),
]
const brief = (due: ReturnType<typeof listDue>) =>
  due.map(({ plan: of, look, state }) => `${of} ${look.id} ${state}`)

describe('what is due', () => {
  test.each([
    ['2026-05-10', []],
    ['2026-05-11', ['b first due']],
    ['2026-05-18', ['a first due', 'b score due', 'c first due']],
    ['2026-05-24', ['a first due', 'b score due', 'c first due']],
    ['2026-05-25', ['a first overdue', 'b score due', 'c first overdue']],
    ['2026-05-26', ['a first overdue', 'b score overdue', 'c first overdue']],
    ['2026-06-01', ['a score due', 'b decide due', 'c score due']],
  ])('on %s', (today, expected) => {
    expect(brief(listDue(plans, today))).toEqual(expected)
  })

  test('for a person, a site, and overdue for the crew', () => {
    expect(brief(listDue(plans, '2026-05-26', { person: 'nila' }))).toEqual(['c first overdue'])
    expect(brief(listDue(plans, '2026-05-26', { site: 'dale' }))).toEqual([
      'b score overdue',
      'c first overdue',
    ])
    expect(brief(listDue(plans, '2026-05-18', { states: ['overdue'] }))).toEqual([])
  })

  test('and what comes in the next days', () => {
    expect(brief(listDue(plans, '2026-05-10', { daysAhead: 8 }))).toEqual([
      'b first coming',
      'a first coming',
      'c first coming',
    ])
  })

  test('a look that was handed over is due for whom it was given to', () => {
    const [first, ...rest] = sedge.looks
    if (first === undefined) throw new Error('a plan has looks')
    const handed = { ...sedge, looks: [{ ...first, handedTo: 'teo' }, ...rest] }
    expect(listDue([owned('a', handed)], '2026-05-18')[0]?.person).toBe('teo')
  })

  test('nothing of a plan whose looks are all closed', () => {
    const closed = sedge.looks.map((look) => ({
      ...look,
      status: { kind: 'looked', on: look.from, by: 'bex' } as const,
    }))
    expect(listDue([owned('a', { ...sedge, looks: closed })], '2026-08-01')).toEqual([])
  })
})

describe('a summary', () => {
  test('counts, and names the site first that has waited longest', () => {
    const summary = summarizeDue(listDue(plans, '2026-05-26'))
    expect(summary).toMatchObject({ due: 0, overdue: 3 })
    expect(summary.bySite.map(({ site, looks }) => `${site} ${looks.length}`)).toEqual(['hill 1', 'dale 2'])
  })

  test('leaves out what is only coming', () => {
    const coming = listDue(plans, addDays('2026-05-04', 1), { daysAhead: 30 })
    expect(coming.length).toBeGreaterThan(0)
    expect(summarizeDue(coming)).toEqual({ due: 0, overdue: 0, bySite: [] })
  })
})
