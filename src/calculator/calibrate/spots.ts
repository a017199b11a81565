import { amountIn, quantity } from '#src/quantity/quantity.ts'
import type { Output } from '#src/quantity/rate.ts'
import { sayOutput } from '#src/quantity/said.ts'
import type { Calculated } from '../worked.ts'
import { blocked, finding, step, worked } from '../worked.ts'
import type { Area, Volume } from './measured.ts'
import { doubts } from './measured.ts'
import type { OutputForm } from './output.ts'
import { outputOver, PER_THOUSAND } from './output.ts'
import type { Runs } from './runs.ts'
import { averageRuns, tooVaried } from './runs.ts'

export interface SpotOutput {
  readonly perSpot: Volume
  /** What that is on the sprayed ground, when the size of a spot is known. */
  readonly output: Output | null
  readonly runs: Runs | null
}

/**
 * What one person uses on one spot, sprayed to wet: not the broadcast figure, so it is measured by itself.
 * @param used what each run over the spots took, one or several
 * @param spots how many spots the volume went on
 * @param spotArea ground that one spot covers, to tell the rate that a percent mix becomes
 */
export function calibrateSpots(
  used: readonly Volume[],
  spots: number,
  options: { readonly spotArea?: Area; readonly form?: OutputForm } = {},
): Calculated<SpotOutput> {
  const problems = [...doubts({ ground: options.spotArea }), ...used.flatMap((one) => doubts({ used: one }))]
  if (!Number.isInteger(spots) || spots < 1 || spots > 100_000)
    problems.push(finding('refusal', 'calibrate.bad-spots', { given: spots }))
  const [first] = used
  if (problems.length > 0) return blocked(...problems)
  if (first === undefined) throw new RangeError('Cannot calibrate without a measured volume')
  const all = averageRuns(used.map((one) => amountIn(one, first.unit)))
  const mean = quantity(all.mean, first.unit)
  const perSpot = quantity(all.mean.div(spots), first.unit)
  const runs = used.length > 1 ? all : null
  const working = [
    ...(runs === null ? [] : [step('calibrate.mean-of-runs', { runs: runs.count, mean })]),
    step('calibrate.per-spot', { used: mean, spots, perSpot }),
  ]
  const findings = [...tooVaried(all), ...few(spots)]
  if (options.spotArea === undefined) return worked({ perSpot, output: null, runs }, working, findings)
  const output = outputOver(perSpot, options.spotArea, options.form ?? PER_THOUSAND)
  const onGround = step('calibrate.spot-output', {
    perSpot,
    ground: options.spotArea,
    output: sayOutput(output),
  })
  return worked({ perSpot, output, runs }, [...working, onGround], findings)
}

/** Fewer than five spots say little about the next one (common practice, no source). */
function few(spots: number) {
  return spots < 5 ? [finding('heads-up', 'calibrate.few-spots', { spots })] : []
}

/** Volume for so many spots at what one takes. */
export function volumeForSpots(perSpot: Volume, spots: number, unit = perSpot.unit): Volume {
  return quantity(amountIn(perSpot, unit).times(spots), unit)
}
