import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { addDays, type Day } from '#src/label/day.ts'
import { MOST_AT_ONCE, piecesOf } from '#src/papers/pieces.ts'

/** `from..to` of each piece, or the step that asks for those without a day. */
const pieces = (...asked: Parameters<typeof piecesOf>) =>
  piecesOf(...asked).map(({ to }) => {
    if (!('step' in to)) return ''
    const { from, to: last } = (to.value ?? {}) as { from?: Day; to?: Day }
    return from === undefined ? to.step : `${from}..${last}`
  })

const many = MOST_AT_ONCE

describe('a paper that is too long for one message', () => {
  test('has no pieces while everything goes out at once', () => {
    expect(pieces([{ month: '2026-05', count: many }], {})).toEqual([])
  })

  test('of several years comes by years, and those without a day by themselves', () => {
    const months = [
      { month: null, count: 3 },
      { month: '2025-11', count: many },
      { month: '2026-02', count: 9 },
    ]
    expect(pieces(months, {})).toEqual(['2025-01-01..2025-12-31', '2026-01-01..2026-12-31', 'undated'])
  })

  test('of one year comes by months, never beyond what was asked', () => {
    const months = [
      { month: '2026-02', count: many },
      { month: '2026-03', count: 9 },
    ]
    expect(pieces(months, { from: '2026-02-10', to: '2026-03-05' })).toEqual([
      '2026-02-10..2026-02-28',
      '2026-03-01..2026-03-05',
    ])
  })

  test('of one month comes in parts of ten days, then by days; a single day is not split further', () => {
    const may = [{ month: '2026-05', count: many + 1 }]
    expect(pieces(may, {})).toEqual([
      '2026-05-01..2026-05-10',
      '2026-05-11..2026-05-20',
      '2026-05-21..2026-05-30',
      '2026-05-31..2026-05-31',
    ])
    expect(pieces(may, { from: '2026-05-30', to: '2026-05-31' })).toEqual([
      '2026-05-30..2026-05-30',
      '2026-05-31..2026-05-31',
    ])
    expect(pieces(may, { from: '2026-05-30', to: '2026-05-30' })).toEqual([])
  })

  test('holds every day that was asked exactly once, whatever was asked', () => {
    fc.assert(
      fc.property(fc.nat({ max: 1000 }), fc.integer({ min: 1, max: 800 }), (begin, length) => {
        const from = addDays('2024-01-01', begin)
        const to = addDays(from, length)
        const days = Array.from({ length: length + 1 }, (_, at) => addDays(from, at))
        const months = [...new Set(days.map((day) => day.slice(0, 7)))].map((month) => ({
          month,
          count: many + 1,
        }))
        const found = pieces(months, { from, to })
        const held = found.flatMap((piece) => {
          const [first = '', last = ''] = piece.split('..')
          return days.filter((day) => first <= day && day <= last)
        })
        expect(held).toEqual(days)
      }),
      { numRuns: 100 },
    )
  })
})
