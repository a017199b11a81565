import { compareNumbers } from '#src/quantity/big.ts'
import { convert, type Quantity } from '#src/quantity/quantity.ts'
import type { UnitId } from '#src/quantity/units.ts'

/** Below half of it, a unit is told in the next smaller one. */
const SMALLER: Partial<Record<UnitId, UnitId>> = {
  gal: 'fl oz',
  qt: 'fl oz',
  pt: 'fl oz',
  lb: 'oz wt',
  L: 'mL',
  kg: 'g',
}

/** The same amount in a unit that can be pictured: 0.09 pt is 1.5 fl oz. */
export function handyUnit(amount: Quantity): Quantity {
  const smaller = SMALLER[amount.unit]
  return smaller === undefined || compareNumbers(amount.value, '0.5') >= 0 ? amount : convert(amount, smaller)
}
