import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { daysUntil } from '#src/weather/degree-days/days-until.ts'
import { sumDegreeDays } from '#src/weather/degree-days/sum.ts'

const method = { name: 'average', base: '50', unit: 'F' } as const

/** Counted from 1 May on, a high and a low a day. */
function counted(days: readonly (readonly [high: string, low: string])[]) {
  const dated = days.map(([high, low], at) => ({
    day: `2026-05-${String(at + 1).padStart(2, '0')}`,
    max: high,
    min: low,
    unit: 'F' as const,
  }))
  const summed = sumDegreeDays(dated, method, '2026-05-01')
  if (!summed.ok) throw new Error('These days cannot be counted')
  return summed.value
}

describe('the day on which a total is reached, if the weather stays as it is', () => {
  // Twenty degree days each: (78 + 62) / 2 - 50.
  const warm = counted(Array(4).fill(['78', '62']))

  test.each([
    ['120 of 200 lacking at 20 a day', 200, '2026-05-04', { lacking: 120, daily: 20, days: 6 }],
    ['a part of a day is a day', 201, '2026-05-04', { lacking: 121, daily: 20, days: 7 }],
    ['two days have gone by since the last that was counted', 200, '2026-05-06', { days: 4 }],
    ['there already', 80, '2026-05-04', { lacking: 0, days: 0 }],
  ])('%s', (_, wanted, today, ahead) => {
    expect(daysUntil(wanted, warm, today)).toMatchObject(ahead)
  })

  test('only the last seven days say what a day brings', () => {
    const spring = counted([...Array(7).fill(['50', '40']), ...Array(7).fill(['70', '50'])])
    expect(daysUntil(100, spring, '2026-05-14')).toEqual({ lacking: 30, daily: 10, days: 3 })
  })

  test('at present a day brings nothing: nobody can tell', () => {
    expect(daysUntil(100, counted([['48', '32']]), '2026-05-01').days).toBeNull()
  })

  test('a higher threshold is never reached earlier', () => {
    const threshold = fc.integer({ min: 1, max: 3000 })
    fc.assert(
      fc.property(threshold, threshold, (one, other) => {
        const [low, high] = [Math.min(one, other), Math.max(one, other)]
        const [early, late] = [low, high].map((wanted) => daysUntil(wanted, warm, '2026-05-04').days ?? 0)
        expect(early).toBeLessThanOrEqual(late ?? 0)
      }),
    )
  })
})
