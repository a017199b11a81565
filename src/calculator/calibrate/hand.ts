import { amountIn, quantity } from '#src/quantity/quantity.ts'
import type { Output } from '#src/quantity/rate.ts'
import { sayOutput } from '#src/quantity/said.ts'
import type { Calculated } from '../worked.ts'
import { blocked, step, worked } from '../worked.ts'
import type { Area, Length, Volume } from './measured.ts'
import { doubts } from './measured.ts'
import type { OutputBand, OutputForm } from './output.ts'
import { outputOver, outsideBand, PER_THOUSAND } from './output.ts'
import type { Runs } from './runs.ts'
import { averageRuns, tooVaried } from './runs.ts'

export interface TellOptions {
  /** @default gallons per 1,000 square feet */
  readonly form?: OutputForm
  /** @default about 10 to 220 gallons per acre */
  readonly band?: OutputBand
  /** Most that runs may differ, in percent of their mean. @default 10 */
  readonly spreadLimitPercent?: number | string
}

export interface MeasuredOutput {
  readonly output: Output
  readonly runs: Runs | null
}

/**
 * What a hand sprayer puts on a measured area (F1): Colorado State University CEPEP Fact Sheet 204.
 * @param used what each run took, one or several
 * @param ground the area sprayed in each run
 */
export function calibrateByHand(
  ground: Area,
  used: readonly Volume[],
  options: TellOptions = {},
): Calculated<MeasuredOutput> {
  const problems = [...doubts({ ground }), ...used.flatMap((one) => doubts({ used: one }))]
  const [first] = used
  if (problems.length > 0) return blocked(...problems)
  if (first === undefined) throw new RangeError('Cannot calibrate without a measured volume')
  const runs = averageRuns(used.map((one) => amountIn(one, first.unit)))
  const mean = quantity(runs.mean, first.unit)
  const output = outputOver(mean, ground, options.form ?? PER_THOUSAND)
  const varied = tooVaried(runs, options.spreadLimitPercent)
  return worked(
    { output, runs: used.length > 1 ? runs : null },
    [
      ...(used.length > 1 ? [step('calibrate.mean-of-runs', { runs: runs.count, mean })] : []),
      step('calibrate.used-over-ground', { used: mean, ground, output: sayOutput(output) }),
    ],
    [...varied, ...outsideBand(output, options.band)],
  )
}

/**
 * Refill method (F3): what it takes to top up after a strip of known length and swath.
 * @param given.used what each run over the strip took, one or several
 */
export function calibrateByRefill(
  given: { readonly used: readonly Volume[]; readonly length: Length; readonly swath: Length },
  options: TellOptions = {},
): Calculated<MeasuredOutput> {
  const problems = doubts({ distance: given.length, swath: given.swath })
  if (problems.length > 0) return blocked(...problems)
  const ground = quantity(amountIn(given.length, 'ft').times(amountIn(given.swath, 'ft')), 'ft2')
  const strip = step('calibrate.strip', { length: given.length, swath: given.swath, ground })
  const found = calibrateByHand(ground, given.used, options)
  return found.ok ? { ...found, working: [strip, ...found.working] } : found
}
