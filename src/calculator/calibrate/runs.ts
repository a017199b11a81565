import type { Big, Numeric } from '#src/quantity/big.ts'
import { big, compareNumbers, decimalText, sumOf } from '#src/quantity/big.ts'
import type { Finding } from '../worked.ts'
import { finding } from '../worked.ts'

/** Several measurements of the same thing. */
export interface Runs {
  readonly count: number
  readonly mean: Big
  readonly least: Big
  readonly most: Big
  /** From the least to the most, in percent of the mean. */
  readonly spreadPercent: string
}

/** Runs further apart than this share of their mean are measured again. A setting (common practice, no source). */
export const USUAL_SPREAD_PERCENT = 10

/** @throws RangeError for an empty list or a mean of zero: the figures are checked before. */
export function averageRuns(values: readonly Numeric[]): Runs {
  const numbers = values.map((value) => big(value))
  const [first] = numbers
  if (first === undefined) throw new RangeError('Cannot average no runs')
  const mean = sumOf(numbers).div(numbers.length)
  if (mean.isZero()) throw new RangeError('Cannot tell the spread of runs that are zero on average')
  const least = numbers.reduce((a, b) => (b.lt(a) ? b : a), first)
  const most = numbers.reduce((a, b) => (b.gt(a) ? b : a), first)
  const spreadPercent = decimalText(most.minus(least).div(mean).times(100).abs())
  return { count: numbers.length, mean, least, most, spreadPercent }
}

/** A hold when the runs differ by more than the limit: the mean of such runs says nothing. */
export function tooVaried(runs: Runs, limitPercent: Numeric = USUAL_SPREAD_PERCENT): Finding[] {
  if (compareNumbers(runs.spreadPercent, limitPercent) <= 0) return []
  return [
    finding('hold', 'calibrate.too-varied', {
      spread: { value: decimalText(big(runs.spreadPercent).toDecimalPlaces(1)), unit: '%' },
      limit: { value: decimalText(limitPercent), unit: '%' },
      runs: runs.count,
    }),
  ]
}
