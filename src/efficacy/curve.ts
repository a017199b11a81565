import type { Numeric } from '#src/quantity/big.ts'
import { big, compareNumbers, decimalText, sumOf } from '#src/quantity/big.ts'
import type { Result } from '#src/quantity/result.ts'
import { fail, ok } from '#src/quantity/result.ts'

/** A rating on a day, counted in days from any start. */
export interface RatedDay {
  readonly day: Numeric
  readonly percent: Numeric
}

export interface CurveArea {
  /** Percent times days. */
  readonly area: string
  /** Share of what it would be at 100 percent all the time, in percent. */
  readonly relativePercent: string
  readonly days: string
}

export type CurveProblem =
  | { readonly kind: 'too-few-ratings' }
  | { readonly kind: 'same-day'; readonly day: string }

/**
 * Area under repeated ratings by trapezoids: one figure for injury-days or cover-days, as for disease progress (help
 * page of a general agricultural statistics library).
 */
export function areaUnderRatings(ratings: readonly RatedDay[]): Result<CurveArea, CurveProblem> {
  const sorted = [...ratings].sort((a, b) => compareNumbers(a.day, b.day))
  const [first, last] = [sorted[0], sorted.at(-1)]
  if (first === undefined || last === undefined || sorted.length < 2) return fail({ kind: 'too-few-ratings' })
  const steps = sorted.slice(1).map((right, index) => {
    const left = sorted[index] ?? first
    const days = big(right.day).minus(big(left.day))
    return { day: right.day, days, area: big(left.percent).plus(big(right.percent)).div(2).times(days) }
  })
  const twice = steps.find((one) => one.days.isZero())
  if (twice !== undefined) return fail({ kind: 'same-day', day: decimalText(twice.day) })
  const area = sumOf(steps.map((one) => one.area))
  const days = big(last.day).minus(big(first.day))
  return ok({
    area: decimalText(area),
    relativePercent: decimalText(area.div(days)),
    days: decimalText(days),
  })
}
