import type { Reason } from '#src/label/verdict.ts'
import { big } from '#src/quantity/big.ts'
import type { Rated } from './trend.ts'
import { changeBetween } from './trend.ts'

/** Mean and range of a visit. */
export function figuresOf({ control, on }: Rated): Reason['with'] {
  return {
    mean: inPercent(control.mean),
    least: inPercent(control.least),
    most: inPercent(control.most),
    plots: control.plots,
    day: { day: on },
  }
}

export function percentOf({ control }: Rated): Reason['with'][string] {
  return inPercent(control.mean)
}

/** Percents are shown whole: no eye sees tenths. */
export function inPercent(value: string): { readonly value: string; readonly unit: string } {
  return { value: big(value).plus('0.5').floor().toFixed(), unit: '%' }
}

/** Whole percent points gained since the visit before. */
export function pointsGained(last: Rated, before: Rated | undefined): number {
  return before === undefined ? 0 : big(changeBetween(before, last)).plus('0.5').floor().toNumber()
}
