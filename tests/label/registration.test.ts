import { describe, expect, test } from 'vitest'
import { readLocalNeedState, readRegistrationNumber } from '#src/label/registration.ts'

const CALIFORNIA =
  "California DPR, What's in a Registration Number, https://www.cdpr.ca.gov/docs/label/epadef.htm"
const REVIEW_MANUAL = 'EPA Label Review Manual, chapter 14, Identification Numbers'
const REGISTRATION_MANUAL = 'EPA Pesticide Registration Manual, chapter 14'

describe('a registration number', () => {
  test.each([
    ['9999999-1', { company: '9999999', product: '1' }, CALIFORNIA],
    ['EPA Reg. No. 9999999-12', { company: '9999999', product: '12' }, 'by hand: the lead-in is taken off'],
    ['EPA Reg. No.: 9999999–12', { company: '9999999', product: '12' }, 'by hand: typographic dash'],
    ['9999999-12-9999998', { company: '9999999', product: '12', distributor: '9999998' }, CALIFORNIA],
    ['9999999-12-AA', { company: '9999999', product: '12', revision: 'AA' }, CALIFORNIA],
    [
      '9999999-12-AA-9999998',
      { company: '9999999', product: '12', revision: 'AA', distributor: '9999998' },
      CALIFORNIA,
    ],
  ])('%s is read', (text, parts, _source) => {
    expect(readRegistrationNumber(text)).toEqual({ ok: true, value: { ...parts, experimental: false } })
  })

  test('an experimental use permit is read as one', () => {
    expect(readRegistrationNumber('9999999-EUP-7')).toMatchObject({ ok: true, value: { experimental: true } })
  })

  test.each([
    ['9999999-RE', 'file-symbol', REVIEW_MANUAL],
    ['9999999-GUAT', 'file-symbol', REVIEW_MANUAL],
    ['9999999-NC-001', 'establishment', REGISTRATION_MANUAL],
    ['EPA Est. No. 9999999-NC-1', 'establishment', REGISTRATION_MANUAL],
    ['99999999-1', 'malformed', CALIFORNIA],
    ['9999999-123456', 'malformed', CALIFORNIA],
    ['9999999', 'malformed', CALIFORNIA],
    ['9999999-1-2-3', 'malformed', CALIFORNIA],
    ['9999999-XB', 'malformed', 'by hand: X and B are not letters of a file symbol'],
    ['unknown', 'malformed', 'by hand'],
  ] as const)('%s is refused as %s', (text, error, _source) => {
    expect(readRegistrationNumber(text)).toEqual({ ok: false, error })
  })
})

test.each([
  ['NC-240001', 'NC'],
  ['SLN No. NC-240001', 'NC'],
  ['NC240001', 'NC'],
  ['NC-24', null],
  ['240001', null],
])('Special Local Need %s belongs to %s', (text, state) => {
  expect(readLocalNeedState(text)).toBe(state)
})
