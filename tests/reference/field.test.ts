import { describe, expect, test } from 'vitest'
import { big, compareNumbers } from '#src/quantity/big.ts'
import { roundToDigits, roundToStep } from '#src/quantity/round.ts'
import { CALIBRATION_ROWS } from './calibration-rows.ts'
import { DAY_ROWS } from './day-rows.ts'
import type { Row } from './field-row.ts'
import { SOURCES } from './field-sources.ts'
import { GROUND_ROWS } from './ground-rows.ts'

const ROWS = [...CALIBRATION_ROWS, ...GROUND_ROWS, ...DAY_ROWS]

function compareWithSource({ work, published, standing }: Row) {
  const ours = big(work())
  switch (standing.status) {
    case 'exact':
      return expect(compareNumbers(ours, published)).toBe(0)
    case 'rounds':
      return expect(roundToStep(ours, standing.step, standing.way ?? 'nearest').toFixed()).toBe(published)
    case 'off':
      return expect(ours.div(published).minus(1).times(100).toFixed(2)).toBe(standing.gap)
    case 'source wrong':
      return expect(ours.minus(published).abs().div(ours).gt('0.02')).toBe(true)
  }
}

describe('published worked examples of the field', () => {
  const titled = ROWS.map((row) => ({ ...row, from: SOURCES[row.source] }))

  test.each(titled)('$id: $given is $published $unit, $standing.status ($from)', (row) => {
    compareWithSource(row)
    expect(roundToDigits(row.work(), 4, 'nearest').toFixed()).toBe(row.ours)
  })

  test('every row has its own id', () => {
    expect(new Set(ROWS.map(({ id }) => id)).size).toBe(ROWS.length)
  })

  test('figures that are wrong or misleading at their source stay named so', () => {
    const wrong = ROWS.filter(({ standing }) => standing.status === 'source wrong').map(({ id }) => id)
    expect(wrong).toEqual(['SM-65', 'SM-78 in words', 'SM-94'])
  })
})
