import { big, compareNumbers, decimalText } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import type { AreaRate } from '#src/quantity/rate.ts'
import { sayRate } from '#src/quantity/said.ts'
import type { UnitOf } from '#src/quantity/units.ts'
import type { Calculated } from '../worked.ts'
import { blocked, finding, step, worked } from '../worked.ts'
import { notAboveZero } from './bounds.ts'

type Length = Quantity<UnitOf<'length'>>

export interface Band {
  /** Product per area of the whole field or bed. */
  readonly perField: AreaRate
  /** Product per area of what is really sprayed: the broadcast rate, unchanged. */
  readonly inBand: AreaRate
  /** Share of the ground that is sprayed, in percent. */
  readonly sprayedPercent: string
}

/**
 * A broadcast rate put on bands only (F41): University of Minnesota Extension. Less product goes on the field, but the
 * rate inside the band stays what it was, and it is the rate inside the band that a label limits.
 */
export function rateOnBands(broadcast: AreaRate, band: Length, row: Length): Calculated<Band> {
  const problems = [
    ...notAboveZero('band', band),
    ...notAboveZero('row', row),
    ...notAboveZero('rate', broadcast),
  ]
  if (problems.length > 0) return blocked(...problems)
  const share = amountIn(band, 'in').div(amountIn(row, 'in'))
  if (compareNumbers(share, 1) > 0)
    return blocked(finding('refusal', 'spot.band-wider-than-row', { band, row }))
  const perField = { ...broadcast, value: decimalText(big(broadcast.value).times(share)) }
  return worked({ perField, inBand: broadcast, sprayedPercent: decimalText(share.times(100)) }, [
    step('spot.band', { broadcast: sayRate(broadcast), band, row, perField: sayRate(perField) }),
  ])
}
