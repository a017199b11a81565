import { describe, expect, test } from 'vitest'
import { compareNumbers } from '#src/quantity/big.ts'
import { roundToDigits, roundToStep } from '#src/quantity/round.ts'
import type { Row } from './mixing-rows.ts'
import { ROWS } from './mixing-rows.ts'
import { SOURCES } from './mixing-sources.ts'

function compareWithSource({ work, published, standing }: Row) {
  const ours = work()
  switch (standing.status) {
    case 'exact':
      return expect(compareNumbers(ours, published)).toBe(0)
    case 'rounds':
      return expect(roundToStep(ours, standing.step, standing.way ?? 'nearest').toFixed()).toBe(published)
    case 'off':
      return expect(ours.div(published).minus(1).times(100).toFixed(2)).toBe(standing.gap)
    case 'source wrong':
      return expect(compareNumbers(ours, published)).not.toBe(0)
  }
}

describe('published worked examples', () => {
  const titled = ROWS.map((row) => ({ ...row, from: SOURCES[row.source] }))

  test.each(titled)('$id: $given is $published $unit, $standing.status ($from)', (row) => {
    compareWithSource(row)
    expect(roundToDigits(row.work(), 4, 'nearest').toFixed()).toBe(row.ours)
  })

  test('every row has its own id', () => {
    expect(new Set(ROWS.map(({ id }) => id)).size).toBe(ROWS.length)
  })

  test('mistakes in print stay named as mistakes', () => {
    const wrong = ROWS.filter(({ standing }) => standing.status === 'source wrong').map(({ id }) => id)
    expect(wrong).toEqual(['SM-65', 'SM-93', 'SM-93 next cell'])
  })
})
