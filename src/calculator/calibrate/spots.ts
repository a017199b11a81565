import { big } from '#src/quantity/big.ts'
import { amountIn, quantity } from '#src/quantity/quantity.ts'
import type { Output } from '#src/quantity/rate.ts'
import { sayOutput } from '#src/quantity/said.ts'
import type { Calculated } from '../worked.ts'
import { blocked, finding, step, worked } from '../worked.ts'
import type { Area, Volume } from './measured.ts'
import { doubts } from './measured.ts'
import type { OutputForm } from './output.ts'
import { outputOver, PER_THOUSAND } from './output.ts'

export interface SpotOutput {
  readonly perSpot: Volume
  /** What that is on the sprayed ground, when the size of a spot is known. */
  readonly output: Output | null
}

/**
 * What one person uses on one spot, sprayed to wet: not the broadcast figure, so it is measured by itself.
 * @param spots how many spots the volume went on
 * @param spotArea ground that one spot covers, to tell the rate that a percent mix becomes
 */
export function calibrateSpots(
  used: Volume,
  spots: number,
  options: { readonly spotArea?: Area; readonly form?: OutputForm } = {},
): Calculated<SpotOutput> {
  const problems = doubts({ used, ground: options.spotArea })
  if (!Number.isInteger(spots) || spots < 1 || spots > 100_000)
    problems.push(finding('refusal', 'calibrate.bad-spots', { given: spots }))
  if (problems.length > 0) return blocked(...problems)
  const perSpot = quantity(big(used.value).div(spots), used.unit)
  const first = step('calibrate.per-spot', { used, spots, perSpot })
  if (options.spotArea === undefined) return worked({ perSpot, output: null }, [first], few(spots))
  const output = outputOver(perSpot, options.spotArea, options.form ?? PER_THOUSAND)
  const second = step('calibrate.spot-output', {
    perSpot,
    ground: options.spotArea,
    output: sayOutput(output),
  })
  return worked({ perSpot, output }, [first, second], few(spots))
}

/** Fewer than five spots say little about the next one (common practice, no source). */
function few(spots: number) {
  return spots < 5 ? [finding('heads-up', 'calibrate.few-spots', { spots })] : []
}

/** Volume for so many spots at what one takes. */
export function volumeForSpots(perSpot: Volume, spots: number, unit = perSpot.unit): Volume {
  return quantity(amountIn(perSpot, unit).times(spots), unit)
}
