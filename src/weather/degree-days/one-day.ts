import type { Big } from '#src/quantity/big.ts'
import { big } from '#src/quantity/big.ts'
import { convertNumber } from '#src/quantity/quantity.ts'
import type { DegreeDayMethod } from './method.ts'

/** A day's highest and lowest temperature. */
export interface DayTemperatures {
  readonly max: string
  readonly min: string
  readonly unit: 'F' | 'C'
}

/**
 * Degree days of one day; never below zero. Averages are exact; the sine is good to nine decimals.
 * @returns degrees of the method's unit times days
 */
export function degreeDaysOf(day: DayTemperatures, method: DegreeDayMethod): Big {
  const max = convertNumber(day.max, day.unit, method.unit)
  const min = convertNumber(day.min, day.unit, method.unit)
  switch (method.name) {
    case 'average':
      return floorAtZero(max.plus(min).div(2).minus(big(method.base)))
    case 'capped': {
      const [base, cap] = [big(method.base), big(method.cap)]
      return floorAtZero(
        clip(max, base, cap)
          .plus(clip(min, base, cap))
          .div(2)
          .minus(base),
      )
    }
    case 'sine': {
      const above = (base: string) => sineAbove(max.toNumber(), min.toNumber(), Number(base))
      const whole = above(method.base) - (method.cap === undefined ? 0 : above(method.cap))
      return floorAtZero(big(whole.toFixed(9)))
    }
    default:
      return method satisfies never
  }
}

/** The simple average before it is cut at zero, as some sources print it. */
export function uncutAverage(day: DayTemperatures, base: string): Big {
  return big(day.max).plus(big(day.min)).div(2).minus(big(base))
}

function floorAtZero(value: Big): Big {
  return value.lt(0) ? big(0) : value
}

function clip(value: Big, least: Big, most: Big): Big {
  if (value.lt(least)) return least
  return value.gt(most) ? most : value
}

/** Mean over a day of how far a sine wave from min to max stands above the base. */
function sineAbove(max: number, min: number, base: number): number {
  const mean = (max + min) / 2
  if (min >= base) return mean - base
  if (max <= base) return 0
  const swing = (max - min) / 2
  const crossing = Math.asin((base - mean) / swing)
  return (swing * Math.cos(crossing) - (base - mean) * (Math.PI / 2 - crossing)) / Math.PI
}
