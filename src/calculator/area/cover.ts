import { big } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn, quantity } from '#src/quantity/quantity.ts'
import type { AreaUnit } from '#src/quantity/units.ts'

/** Ground per hour without turning or filling (F58): University of Nebraska-Lincoln, 8.25 ft wide for a mile is an acre. */
export function acresPerHour(speed: Quantity, swath: Quantity): Quantity<'acre'> {
  return quantity(amountIn(speed, 'mph').times(amountIn(swath, 'ft')).div('8.25'), 'acre')
}

/** Ground of a strip. */
export function stripArea(length: Quantity, swath: Quantity, unit: AreaUnit): Quantity<AreaUnit> {
  const ft2 = amountIn(length, 'ft').times(amountIn(swath, 'ft'))
  return quantity(amountIn(quantity(ft2, 'ft2'), unit), unit)
}

/** Time for an area without turning or filling. */
export function timeFor(area: Quantity, speed: Quantity, swath: Quantity): Quantity<'min'> {
  const ft2PerMinute = amountIn(speed, 'ft/min').times(amountIn(swath, 'ft'))
  return quantity(big(amountIn(area, 'ft2')).div(ft2PerMinute), 'min')
}
