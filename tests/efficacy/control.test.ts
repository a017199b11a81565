import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  abbottFromDead,
  abbottPercent,
  hendersonTiltonPercent,
  reductionPercent,
  summarizePlots,
} from '#src/efficacy/control.ts'
import { areaUnderRatings } from '#src/efficacy/curve.ts'
import { ok } from '#src/quantity/result.ts'

const count = fc.integer({ min: 1, max: 5000 })

describe('figures that were published', () => {
  test.each([
    {
      what: 'check 50 % dead, treated 98 % dead: not the 48 % of a plain subtraction',
      // scribd.com/document/263866725/Abbott-s-Formula gives the two and the 48; the 96 follows from its formula.
      check: 50,
      treated: 98,
      percent: 96,
    },
    {
      what: 'check 1 of 40 dead, treated 26 of 40',
      // rdrr.io/cran/ecotoxicology/man/AdjustAbbott.html prints 0.6410256 for EPA's fish test, Table J1 of its
      // short-term methods for estuarine waters; the counts behind it are from memory.
      check: 2.5,
      treated: 65,
      percent: 64.10256,
    },
  ])('by Abbott from percent dead: $what', ({ check, treated, percent }) => {
    const found = abbottFromDead(check, treated)
    expect(Number(found.ok && found.value)).toBeCloseTo(percent, 5)
  })

  test('by Henderson and Tilton: one in ten is left where the untreated spot grew by half', () => {
    // Formula: J. Econ. Entomol. 48:157-161 (1955), from memory; no worked figure of theirs is at hand.
    // By hand: 1 - (5 / 50) * (40 / 60) = 14 / 15.
    const counts = { treatedBefore: 50, treatedAfter: 5, checkBefore: 40, checkAfter: 60 }
    const found = hendersonTiltonPercent(counts)
    expect(Number(found.ok && found.value)).toBeCloseTo(1400 / 15, 9)
  })

  test('area under 40, 80 and 90 % on days 14, 21 and 28', () => {
    // rdrr.io/cran/agricolae/man/audpc.html: 1015 in its worked figure (its text says 1045, which is wrong).
    const ratings = [
      { day: 14, percent: 40 },
      { day: 21, percent: 80 },
      { day: 28, percent: 90 },
    ]
    expect(areaUnderRatings(ratings)).toMatchObject(ok({ area: '1015', days: '14' }))
  })
})

describe('percent control against the untreated spot', () => {
  test.each([
    ['nothing changed', 40, 40, '0'],
    ['all dead', 40, 0, '100'],
    ['three quarters gone', 40, 10, '75'],
    ['worse than untreated, shown as it is', 40, 50, '-25'],
  ])('%s', (_, check, treated, percent) => {
    expect(abbottPercent(check, treated)).toEqual(ok(percent))
  })

  test('an untreated spot without weeds compares nothing', () => {
    expect(abbottPercent(0, 3)).toEqual({ ok: false, error: { kind: 'nothing-to-compare', where: 'check' } })
    expect(abbottPercent(-1, 3)).toEqual({ ok: false, error: { kind: 'below-zero', given: '-1' } })
  })

  test('from percent dead it is the same figure', () => {
    const percent = fc.integer({ min: 0, max: 99 })
    fc.assert(
      fc.property(percent, percent, (check, treated) => {
        expect(abbottFromDead(check, treated)).toEqual(abbottPercent(100 - check, 100 - treated))
      }),
    )
  })
})

describe('spots that did not start alike', () => {
  test('are held against their own beginning', () => {
    const counts = { treatedBefore: 80, treatedAfter: 20, checkBefore: 40, checkAfter: 50 }
    expect(hendersonTiltonPercent(counts)).toEqual(ok('80'))
  })

  test('equal starts give the figure of the untreated spot alone', () => {
    fc.assert(
      fc.property(count, count, count, (start, treatedAfter, checkAfter) => {
        const both = { treatedBefore: start, checkBefore: start, treatedAfter, checkAfter }
        const [a, b] = [hendersonTiltonPercent(both), abbottPercent(checkAfter, treatedAfter)]
        expect(Number(a.ok && a.value)).toBeCloseTo(Number(b.ok && b.value), 9)
      }),
    )
  })

  test('a steady untreated spot gives the plain reduction', () => {
    fc.assert(
      fc.property(count, count, count, (check, before, after) => {
        const counts = { treatedBefore: before, treatedAfter: after, checkBefore: check, checkAfter: check }
        const [a, b] = [hendersonTiltonPercent(counts), reductionPercent(before, after)]
        expect(Number(a.ok && a.value)).toBeCloseTo(Number(b.ok && b.value), 9)
      }),
    )
  })

  test.each([
    [{ treatedBefore: 0, treatedAfter: 1, checkBefore: 1, checkAfter: 1 }, 'treated-before'],
    [{ treatedBefore: 1, treatedAfter: 1, checkBefore: 1, checkAfter: 0 }, 'check-after'],
  ])('%o compares nothing', (counts, where) => {
    expect(hendersonTiltonPercent(counts)).toEqual({
      ok: false,
      error: { kind: 'nothing-to-compare', where },
    })
  })

  test('without a beginning there is no reduction', () => {
    expect(reductionPercent(0, 0).ok).toBe(false)
    expect(reductionPercent(20, 25)).toEqual(ok('-25'))
  })
})

describe('several plots', () => {
  test('have a mean and a range, negatives among them', () => {
    expect(summarizePlots(['90', '75', '-15'])).toEqual({ plots: 3, mean: '50', least: '-15', most: '90' })
    expect(summarizePlots([])).toBeNull()
  })
})

describe('area under repeated ratings', () => {
  test('of a steady rating is rating times days', () => {
    const ratings = [0, 7, 21].map((day) => ({ day, percent: 30 }))
    expect(areaUnderRatings(ratings)).toEqual(ok({ area: '630', relativePercent: '30', days: '21' }))
  })

  test('does not depend on the order of typing', () => {
    const ratings = [
      { day: 14, percent: 10 },
      { day: 0, percent: 0 },
      { day: 7, percent: 20 },
    ]
    expect(areaUnderRatings(ratings)).toEqual(areaUnderRatings([...ratings].reverse()))
  })

  test.each([
    [[], 'too-few-ratings'],
    [[{ day: 1, percent: 5 }], 'too-few-ratings'],
    [
      [
        { day: 1, percent: 5 },
        { day: 1, percent: 6 },
      ],
      'same-day',
    ],
  ])('%o has none', (ratings, kind) => {
    const result = areaUnderRatings(ratings)
    expect(result.ok ? null : result.error.kind).toBe(kind)
  })

  test('split at any rating adds up', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 3, maxLength: 20 }),
        fc.nat(),
        (row, n) => {
          const ratings = row.map((percent, day) => ({ day: day * 7, percent }))
          const at = 1 + (n % (row.length - 2))
          const area = (some: typeof ratings) => {
            const result = areaUnderRatings(some)
            return result.ok ? Number(result.value.area) : Number.NaN
          }
          expect(area(ratings.slice(0, at + 1)) + area(ratings.slice(at))).toBeCloseTo(area(ratings), 9)
        },
      ),
    )
  })
})
