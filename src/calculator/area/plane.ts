import type { Big } from '#src/quantity/big.ts'
import { big, sumOf } from '#src/quantity/big.ts'

/** π to all working digits. */
export const PI: Big = big(-1).acos()

/** Heron's formula; the three sides must be able to meet. */
export function triangleBySides(a: Big, b: Big, c: Big): Big {
  const half = a.plus(b).plus(c).div(2)
  return half.times(half.minus(a)).times(half.minus(b)).times(half.minus(c)).sqrt()
}

/** Can three sides make a triangle that holds any ground? */
export function sidesMeet(a: Big, b: Big, c: Big): boolean {
  const longest = a.gt(b) ? (a.gt(c) ? a : c) : b.gt(c) ? b : c
  return a.plus(b).plus(c).minus(longest).gt(longest)
}

export function circleByRadius(radius: Big): Big {
  return radius.pow(2).times(PI)
}

/** C² ÷ (4π) (F52a): a walk around the edge is enough. */
export function circleByCircumference(around: Big): Big {
  return around.pow(2).div(PI.times(4))
}

/** Both axes whole, from edge to edge (F53). */
export function ellipse(long: Big, short: Big): Big {
  return long.times(short).times(PI).div(4)
}

/** Trapezoid rule over equally spaced offsets (F55). */
export function trapezoidRule(offsets: readonly Big[], spacing: Big): Big {
  const ends = big(offsets.at(0) ?? 0).plus(offsets.at(-1) ?? 0)
  return sumOf(offsets).minus(ends.div(2)).times(spacing)
}

/**
 * Simpson's 1/3 rule (F56), exact wherever the edge is a parabola. It takes an odd number of offsets; with an even
 * number the last strip is a trapezoid.
 */
export function simpsonRule(offsets: readonly Big[], spacing: Big): Big {
  if (offsets.length % 2 === 0) {
    const last = trapezoidRule(offsets.slice(-2), spacing)
    return offsets.length === 2 ? last : simpsonRule(offsets.slice(0, -1), spacing).plus(last)
  }
  const weighted = offsets.map((offset, index) => offset.times(weightAt(index, offsets.length)))
  return sumOf(weighted).times(spacing).div(3)
}

function weightAt(index: number, count: number): number {
  if (index === 0 || index === count - 1) return 1
  return index % 2 === 1 ? 4 : 2
}
