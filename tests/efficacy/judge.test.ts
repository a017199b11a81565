import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { curveOf, judgeRating } from '#src/efficacy/judge.ts'
import type { CoverBefore } from '#src/efficacy/rating.ts'
import { ok } from '#src/quantity/result.ts'
import { rating, TREATED_ON, visits } from './build.ts'

const before: CoverBefore = { plots: [{ plot: '1', coverPercent: 80 }], untreatedPercent: 40 }

describe('percent control of a visit', () => {
  test('against the untreated spot, by how brown both are', () => {
    // US Department of Agriculture, J. Econ. Entomol. 18:265-267 (1925): the formula, (55 - 10) / (100 - 10), by hand.
    const judged = judgeRating(
      rating({ plots: [{ plot: '1', brownPercent: 55 }], untreated: { brownPercent: 10 } }),
      TREATED_ON,
    )
    expect(judged.plots).toEqual([{ plot: '1', percent: '50', method: 'abbott' }])
    expect(judged.day).toBe(28)
  })

  test('by covers before and after where both spots have them (Henderson and Tilton)', () => {
    // (1 - 20/80 x 40/50) x 100 = 80, by hand: no worked example of an agency was found.
    const judged = judgeRating(
      rating({
        plots: [{ plot: '1', brownPercent: 60, coverPercent: 20 }],
        untreated: { brownPercent: 0, coverPercent: 50 },
      }),
      TREATED_ON,
      { before },
    )
    expect(judged.plots).toEqual([{ plot: '1', percent: '80', method: 'henderson-tilton' }])
  })

  test.each([
    ['was not covered before', { plots: [], untreatedPercent: 40 }],
    ['has no untreated cover before', { plots: before.plots, untreatedPercent: null }],
    ['had a bare untreated spot', { plots: before.plots, untreatedPercent: 0 }],
  ])('goes back to how brown it is when a plot %s', (_, known) => {
    const judged = judgeRating(
      rating({
        plots: [{ plot: '1', brownPercent: 60, coverPercent: 20 }],
        untreated: { brownPercent: 0, coverPercent: 50 },
      }),
      TREATED_ON,
      { before: known },
    )
    expect(judged.plots).toEqual([{ plot: '1', percent: '60', method: 'abbott' }])
  })

  test('without an untreated spot it is called a plain reduction, or as it looks', () => {
    const read = (coverPercent?: number) =>
      judgeRating(
        rating({
          plots: [{ plot: '1', brownPercent: 70, ...(coverPercent === undefined ? {} : { coverPercent }) }],
          untreated: null,
        }),
        TREATED_ON,
        { before },
      )
    expect(read(20).plots).toEqual([{ plot: '1', percent: '75', method: 'reduction' }])
    expect(read().plots).toEqual([{ plot: '1', percent: '70', method: 'as-seen' }])
    expect(read().notes).toEqual(['no-untreated'])
  })

  test('below zero is shown, not hidden', () => {
    const judged = judgeRating(
      rating({ plots: [{ plot: '1', brownPercent: 1 }], untreated: { brownPercent: 10 } }),
      TREATED_ON,
    )
    expect(judged.control?.mean).toBe('-10')
    expect(judged.notes).toContain('worse-than-untreated')
  })

  test('several plots have a mean and a range', () => {
    const plots = [90, 75, 60].map((brownPercent, at) => ({ plot: `${at}`, brownPercent }))
    const judged = judgeRating(rating({ plots }), TREATED_ON)
    expect(judged.control).toEqual({ plots: 3, mean: '75', least: '60', most: '90' })
    expect(judged.notes).toEqual([])
  })

  test('one plot and one untreated spot are a sign, not a proof', () => {
    expect(judgeRating(rating(), TREATED_ON).notes).toEqual(['one-plot'])
  })

  test('rain and mowing since are told with it', () => {
    expect(judgeRating(rating({ rain: 'yes', mown: 'yes' }), TREATED_ON).notes).toEqual([
      'one-plot',
      'rained',
      'mown',
    ])
  })
})

describe('an untreated spot that is brown too', () => {
  test.each([
    [10, true],
    [11, false],
    [100, false],
  ])('%i percent: can be judged %s', (brownPercent, canBeJudged) => {
    const judged = judgeRating(rating({ untreated: { brownPercent } }), TREATED_ON)
    expect(judged.control !== null).toBe(canBeJudged)
    expect(judged.notes.includes('untreated-brown')).toBe(!canBeJudged)
  })

  test('the limit is the crew’s', () => {
    const settings = { mostUntreatedBrownPercent: 30 }
    const judged = judgeRating(rating({ untreated: { brownPercent: 30 } }), TREATED_ON, { settings })
    expect(judged.control?.plots).toBe(1)
  })
})

test('no judgement is above 100 percent, whatever was read', () => {
  const percent = fc.integer({ min: 0, max: 100 })
  fc.assert(
    fc.property(
      percent,
      percent,
      percent,
      percent,
      percent,
      percent,
      (brown, cover, checkBrown, checkCover, was, checkWas) => {
        const judged = judgeRating(
          rating({
            plots: [{ plot: '1', brownPercent: brown, coverPercent: cover }],
            untreated: { brownPercent: checkBrown, coverPercent: checkCover },
          }),
          TREATED_ON,
          { before: { plots: [{ plot: '1', coverPercent: was }], untreatedPercent: checkWas } },
        )
        for (const plot of judged.plots) expect(Number(plot.percent)).toBeLessThanOrEqual(100)
        expect(judged.control === null).toBe(checkBrown > 10)
      },
    ),
  )
})

describe('control over the whole time', () => {
  test('begins at nothing on the day of the application', () => {
    // Day 0 to 14: 0 to 40, day 14 to 28: 40 to 80: 280 + 840 = 1120, by hand.
    expect(curveOf(visits(['2026-05-18', 40], ['2026-06-01', 80]))).toEqual(
      ok({ area: '1120', relativePercent: '40', days: '28' }),
    )
  })

  test('leaves out visits that could not be judged', () => {
    const brown = { untreated: { brownPercent: 60 } }
    const all = visits(['2026-05-18', 40], ['2026-05-25', 90, brown], ['2026-06-01', 80])
    expect(curveOf(all)).toEqual(curveOf(visits(['2026-05-18', 40], ['2026-06-01', 80])))
  })
})
