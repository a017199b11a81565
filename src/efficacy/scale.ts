import type { Numeric } from '#src/quantity/big.ts'
import { big } from '#src/quantity/big.ts'

/** Steps of percent control that have a picture to compare with; any whole percent may be given. */
export const controlSteps = [0, 25, 50, 75, 90, 100] as const
export type ControlStep = (typeof controlSteps)[number]

/** The pictured step nearest to a percentage; of two equally near ones the lower, so that nothing looks better than it is. */
export function nearestStep(percent: number): ControlStep {
  return controlSteps.reduce<ControlStep>(
    (best, step) => (Math.abs(step - percent) < Math.abs(best - percent) ? step : best),
    0,
  )
}

/** What a percentage is called; the words are `recheck.band-<id>`. */
export type ControlBand = 'excellent' | 'good' | 'suppression' | 'poor' | 'worse'

/**
 * The band of a percent control: 91 to 100, 80 to 90, 60 to 79, below, and below zero, in whole percents. Canadian Weed
 * Science Society, rating scale for herbicide efficacy, 15 January 2018, table 1:
 * http://weedscience.ca/cwss-visual-ratings-scale/
 */
export function bandOf(percent: Numeric): ControlBand {
  const whole = big(percent).plus('0.5').floor()
  if (whole.lt(0)) return 'worse'
  if (whole.lt(60)) return 'poor'
  if (whole.lt(80)) return 'suppression'
  return whole.lt(91) ? 'good' : 'excellent'
}
