import type { Big } from '#src/quantity/big.ts'
import { big, decimalText } from '#src/quantity/big.ts'
import type { Rate } from '#src/quantity/rate.ts'
import type { Result } from '#src/quantity/result.ts'
import { fail, ok } from '#src/quantity/result.ts'
import { sayRate } from '#src/quantity/said.ts'
import type { Step } from '../worked.ts'
import { step } from '../worked.ts'
import { rateRatio } from './convert.ts'
import type { Figures, RateProblem } from './figures.ts'

/** What a change between two versions of a rate looks like. */
export type RateChange = 'same' | 'changed' | 'factor-of-ten' | 'area-slip' | 'ounce-slip' | 'much'

export interface ComparedRates {
  /** New over old. */
  readonly ratio: string
  readonly change: RateChange
  readonly message: Step | undefined
}

/** A shifted point may come with a corrected last digit. */
const TEN_WITHIN = '0.1'
/** Slips of unit are exact but for the rounding of what was typed. */
const SLIP_WITHIN = '0.02'
/** 1 acre is 43.56 times 1000 ft2. */
const ACRES_IN_THOUSANDS = '43.56'
/** 16 oz wt are a pound, and 16 fl oz a pint. */
const OUNCES = '16'
/** From here on a change is pointed out even if it looks like no known slip. */
const MUCH = '5'
const POWERS_OF_TEN = ['10', '100', '1000', '10000'] as const

/** Points out the slips that happen when a rate is typed anew: a shifted point, acre for 1000 ft2, ounces for pounds. */
export function compareRates(
  old: Rate,
  fresh: Rate,
  figures: Figures = {},
): Result<ComparedRates, RateProblem> {
  const ratio = rateRatio(fresh, old, figures)
  if (!ratio.ok) return fail(ratio.error)
  const number = big(ratio.value)
  const change = classify(number)
  const factor = number.gte(1) ? number : big(1).div(number)
  const message =
    change === 'same'
      ? undefined
      : step(`rate.change.${change}`, {
          old: sayRate(old),
          fresh: sayRate(fresh),
          factor: decimalText(factor.toSignificantDigits(3)),
          way: number.gt(1) ? 'more' : 'less',
        })
  return ok({ ratio: ratio.value, change, message })
}

function classify(ratio: Big): RateChange {
  if (ratio.equals(1)) return 'same'
  const factor = ratio.gte(1) ? ratio : big(1).div(ratio)
  if (POWERS_OF_TEN.some((power) => isNear(factor, power, TEN_WITHIN))) return 'factor-of-ten'
  if (isNear(factor, ACRES_IN_THOUSANDS, SLIP_WITHIN)) return 'area-slip'
  if (isNear(factor, OUNCES, SLIP_WITHIN)) return 'ounce-slip'
  return factor.gte(MUCH) ? 'much' : 'changed'
}

function isNear(factor: Big, target: string, within: string): boolean {
  return factor.div(target).minus(1).abs().lte(within)
}
