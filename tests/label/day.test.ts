import fc from 'fast-check'
import { expect, test } from 'vitest'
import { addDays, addYear, daysBetween, isDay, newYearAfter } from '#src/label/day.ts'

test.each([
  ['2025-06-30', true],
  ['2024-02-29', true],
  ['2025-02-29', false],
  ['2025-13-01', false],
  ['2025-6-30', false],
  ['30 June', false],
])('%s is a day: %s', (text, isOne) => {
  expect(isDay(text)).toBe(isOne)
})

test('the calendar of the engine knows the same days', () => {
  const text = fc
    .tuple(
      fc.integer({ min: 0, max: 9999 }),
      fc.integer({ min: 0, max: 13 }),
      fc.integer({ min: 0, max: 32 }),
    )
    .map(([year, month, day]) => [pad(year, 4), pad(month, 2), pad(day, 2)].join('-'))
  fc.assert(
    fc.property(text, (one) => {
      const ms = Date.parse(`${one}T00:00:00Z`)
      expect(isDay(one)).toBe(!Number.isNaN(ms) && new Date(ms).toISOString().startsWith(one))
    }),
    { numRuns: 5000 },
  )
})

const pad = (number: number, places: number) => String(number).padStart(places, '0')

test.each([
  ['2025-06-30', '2026-06-30'],
  ['2024-02-29', '2025-03-01'],
  ['2023-02-28', '2024-02-28'],
])('a year after %s is %s', (day, next) => {
  expect(addYear(day)).toBe(next)
})

test('the year after begins on New Year', () => {
  expect(newYearAfter('2025-06-30')).toBe('2026-01-01')
})

test('days are added across months, years and changes of the clock', () => {
  expect(addDays('2025-03-08', 2)).toBe('2025-03-10')
  expect(addDays('2025-12-31', 1)).toBe('2026-01-01')
})

test('adding days and counting them agree', () => {
  const day = fc.integer({ min: 0, max: 36_500 }).map((days) => addDays('1990-01-01', days))
  fc.assert(
    fc.property(day, fc.integer({ min: -4000, max: 4000 }), (from, days) => {
      expect(daysBetween(from, addDays(from, days))).toBe(days)
    }),
  )
})
