import { big, compareNumbers, decimalText } from '#src/quantity/big.ts'
import type { PlotSummary } from './control.ts'
import type { Judged } from './judge.ts'

/** A visit that could be judged. */
export type Rated = Judged & { readonly control: PlotSummary }

/** The visits that could be judged, the earliest first. */
export function ratedOf(judged: readonly Judged[]): readonly Rated[] {
  return judged
    .flatMap((one) => (one.control === null ? [] : [{ ...one, control: one.control }]))
    .sort((a, b) => a.day - b.day)
}

/** From one visit to the next: percent points gained, below zero when control fell. */
export function changeBetween(earlier: Rated, later: Rated): string {
  return decimalText(big(later.control.mean).minus(earlier.control.mean))
}

/** The last visit and the last one before it on another day. */
export function lastTwo(rated: readonly Rated[]): readonly [Rated | undefined, Rated | undefined] {
  const last = rated.at(-1)
  return [last, rated.filter(({ day }) => last !== undefined && day < last.day).at(-1)]
}

/** Two visits on one day that are further apart than this many percent points. */
export function disagreeing(rated: readonly Rated[], points: string): readonly [Rated, Rated] | null {
  for (const [at, one] of rated.entries()) {
    const other = rated.slice(at + 1).find(({ day }) => day === one.day)
    if (other === undefined) continue
    const apart = big(changeBetween(one, other)).abs()
    if (compareNumbers(apart, points) >= 0) return [one, other]
  }
  return null
}
