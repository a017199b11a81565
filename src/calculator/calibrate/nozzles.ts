import { big, compareNumbers, decimalText, sumOf } from '#src/quantity/big.ts'
import { amountIn, quantity } from '#src/quantity/quantity.ts'
import type { Calculated, Finding } from '../worked.ts'
import { blocked, finding, step, worked } from '../worked.ts'
import type { Volume } from './measured.ts'
import { doubts } from './measured.ts'

/**
 * How far one nozzle may be from the mean. Published limits differ: 5 % (Montana State University MT 2000-14,
 * University of Idaho worksheet), 7 % and 5 to 10 % (a sports-turf trade journal, 2014 and 2012), replace above 10 %
 * (a Florida study guide that quotes state formulas). So both are settings.
 */
export interface NozzleTolerance {
  readonly notePercent: number
  readonly failPercent: number
}

export const usualTolerance: NozzleTolerance = { notePercent: 5, failPercent: 10 }
export const publishedTolerancesPercent = [5, 7, 10] as const

export interface NozzleCatch {
  /** Counted from one, in the order given. */
  readonly nozzle: number
  readonly caught: Volume
  /** From the mean, in percent; negative when it gives less (F12). */
  readonly deviationPercent: string
  readonly state: 'good' | 'note' | 'fail'
}

export interface NozzleTest {
  readonly average: Volume
  readonly nozzles: readonly NozzleCatch[]
  /** Lower and upper end of what passes without a note. */
  readonly range: readonly [Volume, Volume]
}

/**
 * Catches of the same time from every nozzle, each against the mean of all.
 * @param caught at least two, in the unit in which they were read
 */
export function testNozzles(
  caught: readonly Volume[],
  tolerance: NozzleTolerance = usualTolerance,
): Calculated<NozzleTest> {
  const [first] = caught
  if (first === undefined || caught.length < 2)
    return blocked(finding('question', 'calibrate.two-nozzles', { given: caught.length }))
  const problems = caught.flatMap((one) => doubts({ caught: one }))
  if (problems.length > 0) return blocked(...problems)
  const mean = sumOf(caught.map((one) => amountIn(one, first.unit))).div(caught.length)
  const average = quantity(mean, first.unit)
  const nozzles = caught.map((one, index): NozzleCatch => {
    const deviation = amountIn(one, first.unit).minus(mean).div(mean).times(100)
    const state = rateDeviation(deviation.abs().toString(), tolerance)
    return { nozzle: index + 1, caught: one, deviationPercent: decimalText(deviation), state }
  })
  return worked(
    { average, nozzles, range: toleranceRange(average, tolerance.notePercent) },
    [step('calibrate.nozzle-mean', { nozzles: caught.length, average })],
    nozzles.flatMap((one) => nozzleFinding(one, tolerance)),
  )
}

/** What passes: the mean less and plus so many percent. */
export function toleranceRange(average: Volume, percent: number): [Volume, Volume] {
  const share = big(percent).div(100)
  const end = (times: ReturnType<typeof big>) => quantity(big(average.value).times(times), average.unit)
  return [end(big(1).minus(share)), end(big(1).plus(share))]
}

function rateDeviation(percent: string, tolerance: NozzleTolerance): NozzleCatch['state'] {
  if (compareNumbers(percent, tolerance.failPercent) > 0) return 'fail'
  return compareNumbers(percent, tolerance.notePercent) > 0 ? 'note' : 'good'
}

function nozzleFinding(one: NozzleCatch, tolerance: NozzleTolerance): Finding[] {
  if (one.state === 'good') return []
  const limit = one.state === 'fail' ? tolerance.failPercent : tolerance.notePercent
  const figures = {
    nozzle: one.nozzle,
    caught: one.caught,
    deviation: { value: decimalText(big(one.deviationPercent).toDecimalPlaces(1)), unit: '%' },
    limit: { value: String(limit), unit: '%' },
  }
  return one.state === 'fail'
    ? [finding('hold', 'calibrate.nozzle-fail', figures)]
    : [finding('heads-up', 'calibrate.nozzle-note', figures)]
}
