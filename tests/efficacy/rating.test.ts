import { describe, expect, test } from 'vitest'
import { checkRating, Rating } from '#src/efficacy/rating.ts'
import { bandOf, controlSteps, nearestStep } from '#src/efficacy/scale.ts'
import { rating } from './build.ts'

const place = { treatedOn: '2026-05-04', today: '2026-06-02', plots: ['1', '2'] }

describe('what somebody rates', () => {
  test.each([
    ['a percentage above 100', { plots: [{ plot: '1', brownPercent: 101 }] }],
    ['a negative percentage', { untreated: { brownPercent: -1 } }],
    ['half a percent', { plots: [{ plot: '1', brownPercent: 12.5 }] }],
    ['a cover above 100', { plots: [{ plot: '1', brownPercent: 0, coverPercent: 120 }] }],
    ['an injury step of 0', { injury: 0 }],
    ['an injury step of 10', { injury: 10 }],
    ['no plot', { plots: [] }],
    ['a day that is none', { on: '2026-02-30' }],
    ['something more', { mood: 'good' }],
  ])('cannot be %s', (_, wrong) => {
    expect(Rating.safeParse({ ...rating(), ...wrong }).success).toBe(false)
  })

  test('is kept as it is', () => {
    expect(Rating.parse(JSON.parse(JSON.stringify(rating())))).toEqual(rating())
  })
})

describe('what a rating must fit', () => {
  test.each([
    ['the day of the application', { on: '2026-05-04' }, []],
    ['today', { on: '2026-06-02' }, []],
    ['before the application', { on: '2026-05-03' }, [{ kind: 'before-treatment', treatedOn: '2026-05-04' }]],
    ['tomorrow', { on: '2026-06-03' }, [{ kind: 'in-the-future', today: '2026-06-02' }]],
  ])('%s', (_, parts, problems) => {
    expect(checkRating(rating(parts), place)).toEqual(problems)
  })

  test('all problems are told at once', () => {
    const plots = ['1', '1', '7'].map((plot) => ({ plot, brownPercent: 0 }))
    expect(checkRating(rating({ plots, on: '2026-01-01' }), place).map(({ kind }) => kind)).toEqual([
      'before-treatment',
      'plot-twice',
      'plot-unknown',
    ])
  })
})

describe('the pictured steps', () => {
  test.each([
    [0, 0],
    [12, 0],
    [13, 25],
    [60, 50],
    [63, 75],
    [83, 90],
    [82, 75],
    [95, 90],
    [96, 100],
    [100, 100],
  ] as const)('%i percent looks like %i', (percent, step) => {
    expect(nearestStep(percent)).toBe(step)
  })

  test('look like themselves', () => {
    for (const step of controlSteps) expect(nearestStep(step)).toBe(step)
  })
})

// Canadian Weed Science Society, rating scale for herbicide efficacy (15 January 2018), table 1:
// http://weedscience.ca/cwss-visual-ratings-scale/
test.each([
  ['100', 'excellent'],
  ['91', 'excellent'],
  ['90.4', 'good'],
  ['80', 'good'],
  ['79', 'suppression'],
  ['60', 'suppression'],
  ['59', 'poor'],
  ['0', 'poor'],
  ['-1', 'worse'],
] as const)('%s percent is %s', (percent, band) => {
  expect(bandOf(percent)).toBe(band)
})
