import { expect, test } from 'vitest'
import { readDay } from '#src/site/read-day.ts'

const TODAY = '2026-03-01'

test.each([
  ['2026-05-04', '2026-05-04'],
  ['2026-5-4', '2026-05-04'],
  ['5/4/2025', '2025-05-04'],
  ['5/4', '2026-05-04'],
  ['today', '2026-03-01'],
  ['Hoy', '2026-03-01'],
  ['yesterday', '2026-02-28'],
  ['ayer', '2026-02-28'],
  ['2024-02-29', '2024-02-29'],
  ['2026-02-29', null],
  ['2026-13-01', null],
  ['31/12/2026', '2026-12-31'],
  ['4 de mayo', '2026-05-04'],
  ['today 7:30', null],
  ['someday', null],
  ['', null],
])('%s', (text, day) => {
  expect(readDay(text, TODAY)).toBe(day)
})
