import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { compareNumbers } from '#src/quantity/big.ts'
import type { Locale } from '#src/quantity/number.ts'
import { parseQuantity } from '#src/quantity/parse.ts'
import { parseOutput, parseRate, parseStrength } from '#src/quantity/parse-rate.ts'
import { printNumber, printOutput, printQuantity, printRate, printStrength } from '#src/quantity/print.ts'
import { compareQuantities, convert } from '#src/quantity/quantity.ts'
import { roundToStep } from '#src/quantity/round.ts'
import { rateUnitText } from '#src/quantity/said.ts'
import { dimensionOf } from '#src/quantity/units.ts'
import { outputs, quantities, rates, strengths, unitPairs, values } from './arbitraries.ts'
import { sure } from './read.ts'

const locales = fc.constantFrom<Locale>('en', 'es')

describe('conversion', () => {
  test('there and back is where it began', () => {
    fc.assert(
      fc.property(values, unitPairs, (value, [from, to]) => {
        const there = convert({ value, unit: from }, to)
        expect(compareNumbers(convert(there, from).value, value)).toBe(0)
      }),
    )
  })

  test('keeps the order of two quantities', () => {
    fc.assert(
      fc.property(values, values, unitPairs, (a, b, [from, to]) => {
        const order = compareNumbers(a, b)
        expect(compareQuantities(convert({ value: a, unit: from }, to), { value: b, unit: from })).toBe(order)
      }),
    )
  })
})

describe('printing what was read and reading it again changes nothing more', () => {
  test('quantities', () => {
    fc.assert(
      fc.property(quantities, locales, (from, locale) => {
        const once = printQuantity(from, { locale })
        const again = sure(parseQuantity(once, { expect: dimensionOf(from.unit), locale }))
        expect(printQuantity(again, { locale })).toBe(once)
      }),
    )
  })

  test('rates', () => {
    fc.assert(
      fc.property(rates, locales, (from, locale) => {
        const once = printRate(from, { locale })
        const again = sure(parseRate(once, { locale }))
        expect(rateUnitText(again)).toBe(rateUnitText(from))
        expect(printRate(again, { locale })).toBe(once)
      }),
    )
  })

  test('outputs and strengths', () => {
    fc.assert(
      fc.property(outputs, strengths, locales, (output, strength, locale) => {
        const printed = printOutput(output, { locale })
        expect(printOutput(sure(parseOutput(printed, { locale })), { locale })).toBe(printed)
        const told = printStrength(strength, { locale })
        expect(printStrength(sure(parseStrength(told, { locale })), { locale })).toBe(told)
      }),
    )
  })

  test('with all digits nothing is lost at all', () => {
    fc.assert(
      fc.property(values, locales, (value, locale) => {
        const text = `${printNumber(value, { locale, digits: 20 })} gal`
        expect(sure(parseQuantity(text, { expect: 'volume', locale })).value).toBe(value)
      }),
    )
  })
})

test('rounding to a step is at most one step off, on its own side, and stays put when repeated', () => {
  fc.assert(
    fc.property(
      values,
      values,
      fc.constantFrom('down' as const, 'nearest' as const, 'up' as const),
      (value, step, way) => {
        const rounded = roundToStep(value, step, way)
        const gap = rounded.minus(value)
        expect(gap.abs().lte(step)).toBe(true)
        if (way === 'down') expect(gap.lte(0)).toBe(true)
        if (way === 'up') expect(gap.gte(0)).toBe(true)
        expect(compareNumbers(roundToStep(rounded, step, way), rounded)).toBe(0)
      },
    ),
  )
})

test('whatever is typed, a reader answers and never throws', () => {
  const typed = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 90 }),
    fc.stringMatching(/^[0-9 .,/%a-z-]{0,30}$/),
  )
  fc.assert(
    fc.property(typed, locales, (text, locale) => {
      for (const read of [parseRate, parseOutput, parseStrength])
        expect(typeof read(text, { locale }).ok).toBe('boolean')
      const amount = parseQuantity(text, { expect: ['volume', 'mass', 'area', 'time'], locale })
      if (amount.ok) expect(compareNumbers(amount.value.value, 0)).toBe(1)
    }),
    { numRuns: 1000 },
  )
})
