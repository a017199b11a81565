import fc from 'fast-check'
import { expect, test } from 'vitest'
import { readRecordName, recordName } from '#src/record/number.ts'

test.each([
  ['R-12', 12],
  ['r12', 12],
  [' 12 ', 12],
  ['R-0012', 12],
  ['r 12', 12],
  ['#12', 12],
  ['0', null],
  ['R-', null],
  ['twelve', null],
  ['-3', null],
])('the number in “%s” is %s', (text, number) => {
  expect(readRecordName(text)).toBe(number)
})

test('a record is found by the name that everything calls it', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 999_999_999 }), (number) => {
      expect(readRecordName(recordName(number))).toBe(number)
    }),
  )
})
