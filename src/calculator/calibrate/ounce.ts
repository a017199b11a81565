import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn, quantity } from '#src/quantity/quantity.ts'
import { sayOutput } from '#src/quantity/said.ts'
import type { Calculated } from '../worked.ts'
import { blocked, step, worked } from '../worked.ts'
import type { MeasuredOutput, TellOptions } from './hand.ts'
import type { Area, Length, Volume } from './measured.ts'
import { doubts } from './measured.ts'
import { outputOver, outsideBand, PER_ACRE } from './output.ts'
import { averageRuns, tooVaried } from './runs.ts'

/**
 * 1/128 of an acre, exactly: on this plot every fluid ounce is one gallon per acre, since a gallon has 128 of them.
 * Utah State University Extension rounds it to 340.3 ft2.
 */
export const OUNCE_PLOT: Quantity<'ft2'> = { value: '340.3125', unit: 'ft2' }

/**
 * How far to walk or drive so that the course covers the plot (F4a; Ohio State University Extension Bulletin 817-00).
 * @param width swath of one person, or the spacing of nozzles when one nozzle is caught
 */
export function ounceCourse(width: Length, plot: Area = OUNCE_PLOT): Calculated<Quantity<'ft'>> {
  const problems = doubts({ swath: width, ground: plot })
  if (problems.length > 0) return blocked(...problems)
  const course = quantity(amountIn(plot, 'ft2').div(amountIn(width, 'ft')), 'ft')
  return worked(course, [step('calibrate.course', { plot, width, course })])
}

/**
 * Output from what is caught in the time it takes to spray the plot (F4). Works for a plot of any size: the catch
 * over the plot is the output, and on the 1/128 acre ounces are gallons per acre.
 */
export function calibrateByOunces(
  caught: readonly Volume[],
  options: TellOptions & { readonly plot?: Area } = {},
): Calculated<MeasuredOutput> {
  const plot = options.plot ?? OUNCE_PLOT
  const problems = [...doubts({ ground: plot }), ...caught.flatMap((one) => doubts({ caught: one }))]
  const [first] = caught
  if (problems.length > 0) return blocked(...problems)
  if (first === undefined) throw new RangeError('Cannot calibrate without a catch')
  const runs = averageRuns(caught.map((one) => amountIn(one, first.unit)))
  const mean = quantity(runs.mean, first.unit)
  const output = outputOver(mean, plot, options.form ?? PER_ACRE)
  return worked(
    { output, runs: caught.length > 1 ? runs : null },
    [
      ...(caught.length > 1 ? [step('calibrate.mean-of-runs', { runs: runs.count, mean })] : []),
      step('calibrate.caught-over-plot', { caught: mean, plot, output: sayOutput(output) }),
    ],
    [...tooVaried(runs, options.spreadLimitPercent), ...outsideBand(output, options.band)],
  )
}
