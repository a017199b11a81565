import { expect, test } from 'vitest'
import { handyUnit } from '#src/mixing/handy-unit.ts'

test.each([
  // 16 fl oz to the pint, 16 oz to the pound: US customary units.
  [
    { value: '0.25', unit: 'pt' },
    { value: '4', unit: 'fl oz' },
  ],
  [
    { value: '0.25', unit: 'lb' },
    { value: '4', unit: 'oz wt' },
  ],
  [
    { value: '0.25', unit: 'gal' },
    { value: '32', unit: 'fl oz' },
  ],
  [
    { value: '0.02', unit: 'L' },
    { value: '20', unit: 'mL' },
  ],
  [
    { value: '0.5', unit: 'pt' },
    { value: '0.5', unit: 'pt' },
  ],
  [
    { value: '3', unit: 'lb' },
    { value: '3', unit: 'lb' },
  ],
  [
    { value: '0.01', unit: 'g' },
    { value: '0.01', unit: 'g' },
  ],
] as const)('%o is told as %o', (amount, told) => {
  expect(handyUnit(amount)).toEqual(told)
})
