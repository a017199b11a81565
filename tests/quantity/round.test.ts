import { describe, expect, test } from 'vitest'
import { big, compareNumbers, decimalText, isDecimalText } from '#src/quantity/big.ts'
import { countSteps, roundToDigits, roundToStep } from '#src/quantity/round.ts'

describe('rounding to whole steps', () => {
  test.each([
    ['3.696', '0.1', 'down', '3.6'],
    ['3.696', '0.1', 'nearest', '3.7'],
    ['3.65', '0.1', 'nearest', '3.7'],
    ['3.61', '0.1', 'up', '3.7'],
    ['0.226', '0.001', 'down', '0.226'],
    ['0.04', '0.1', 'down', '0'],
    ['7', '2.5', 'up', '7.5'],
  ] as const)('%s in steps of %s, %s, is %s', (value, step, way, expected) => {
    expect(roundToStep(value, step, way).toFixed()).toBe(expected)
  })

  test('a whole number of steps stays whole through a division that does not end', () => {
    const third = big(1).div(3)
    expect(countSteps(third.times(3), '0.001', 'down').toFixed()).toBe('1000')
    expect(countSteps(third.times(3), '0.001', 'up').toFixed()).toBe('1000')
  })

  test('a step of zero or less is a bug', () => {
    expect(() => roundToStep('1', '0', 'down')).toThrow('the step must be above zero')
  })

  test.each([
    ['0.0459136', 4, 'down', '0.04591'],
    ['0.0459136', 2, 'up', '0.046'],
    ['12345', 2, 'nearest', '12000'],
    ['0', 3, 'nearest', '0'],
  ] as const)('%s to %i digits, %s, is %s', (value, digits, way, expected) => {
    expect(roundToDigits(value, digits, way).toFixed()).toBe(expected)
  })
})

describe('decimal texts', () => {
  test.each(['0', '0.5', '-3', '1000', '12.05'])('%s is canonical', (text) =>
    expect(isDecimalText(text)).toBe(true),
  )
  test.each(['', '.5', '0.50', '5.', '1e3', '1,000', '-0', '01', '+1', 'NaN', ' 1'])('%j is not', (text) =>
    expect(isDecimalText(text)).toBe(false),
  )

  test('dust is swept off, real digits stay', () => {
    expect(decimalText(big(1).div(43560).times(43560))).toBe('1')
    expect(decimalText(big(1).div(3))).toBe(`0.${'3'.repeat(50)}`)
    expect(decimalText(big('1e-9'))).toBe('0.000000001')
    expect(decimalText(big('-0'))).toBe('0')
  })

  test('comparing is blind to dust', () => {
    expect(compareNumbers(big(1).div(3).times(3), 1)).toBe(0)
    expect(compareNumbers('1.000000000000000001', 1)).toBe(1)
  })

  test('what is not finite is a bug, not a number', () => {
    expect(() => big('Infinity')).toThrow('not finite')
    expect(() => big(Number.NaN)).toThrow('not finite')
  })
})
