import type { Big, Numeric } from '#src/quantity/big.ts'
import { big, decimalText, sumOf } from '#src/quantity/big.ts'
import type { Result } from '#src/quantity/result.ts'
import { fail, ok } from '#src/quantity/result.ts'

/** Why a percent control cannot be told. */
export type ControlProblem =
  | { readonly kind: 'nothing-to-compare'; readonly where: 'check' | 'treated-before' | 'check-after' }
  | { readonly kind: 'below-zero'; readonly given: string }

type Control = Result<string, ControlProblem>

/**
 * Percent control by Abbott: what the treated spot has less of than the untreated one, both after treatment. For spots
 * that started alike. US Department of Agriculture, Bureau of Entomology, J. Econ. Entomol. 18:265-267 (1925).
 * A single pair of spots gives an indication, not a proof (J. Econ. Entomol. 78:1179-1181, 1985). Below zero when the
 * treated spot is the worse one, and told so.
 * @param check living weeds, or their cover, in the untreated spot
 * @param treated the same in the treated spot
 */
export function abbottPercent(check: Numeric, treated: Numeric): Control {
  const below = firstBelowZero(check, treated)
  if (below !== null) return fail(below)
  if (big(check).isZero()) return fail({ kind: 'nothing-to-compare', where: 'check' })
  return ok(percentText(big(check).minus(big(treated)).div(big(check))))
}

/** Abbott from percent dead instead of living: the same figure. */
export function abbottFromDead(checkDeadPercent: Numeric, treatedDeadPercent: Numeric): Control {
  return abbottPercent(big(100).minus(big(checkDeadPercent)), big(100).minus(big(treatedDeadPercent)))
}

export interface BeforeAfter {
  readonly treatedBefore: Numeric
  readonly treatedAfter: Numeric
  readonly checkBefore: Numeric
  readonly checkAfter: Numeric
}

/**
 * Percent control by Henderson and Tilton, for spots that did not start alike: J. Econ. Entomol. 48:157-161 (1955). The
 * article was not at hand; the formula is as an open analysis of mite trials writes it out after them
 * (github.com/gguido/sugar_shake, scripts/calculations.R), and the CRAN package ecotoxicology 1.0.1 gives it by the same
 * name after W. Püntener, Manual for field trials in plant protection, 1981. No published worked figure was found: it is
 * held against figures worked by hand, and against Abbott, to which it is equal when both spots start alike.
 */
export function hendersonTiltonPercent(counts: BeforeAfter): Control {
  const { treatedBefore, treatedAfter, checkBefore, checkAfter } = counts
  const below = firstBelowZero(treatedBefore, treatedAfter, checkBefore, checkAfter)
  if (below !== null) return fail(below)
  if (big(treatedBefore).isZero()) return fail({ kind: 'nothing-to-compare', where: 'treated-before' })
  if (big(checkAfter).isZero()) return fail({ kind: 'nothing-to-compare', where: 'check-after' })
  const left = big(treatedAfter).div(big(treatedBefore)).times(big(checkBefore)).div(big(checkAfter))
  return ok(percentText(big(1).minus(left)))
}

/** Percent less than before on the same spot: cannot tell the product from weather or season. */
export function reductionPercent(before: Numeric, after: Numeric): Control {
  const below = firstBelowZero(before, after)
  if (below !== null) return fail(below)
  if (big(before).isZero()) return fail({ kind: 'nothing-to-compare', where: 'treated-before' })
  return ok(percentText(big(before).minus(big(after)).div(big(before))))
}

export interface PlotSummary {
  readonly plots: number
  readonly mean: string
  readonly least: string
  readonly most: string
}

/** Several plots of the same treatment: their mean and range, none cut off at zero. */
export function summarizePlots(percents: readonly Numeric[]): PlotSummary | null {
  const numbers = percents.map((one) => big(one))
  const [first] = numbers
  if (first === undefined) return null
  const least = numbers.reduce((a, b) => (b.lt(a) ? b : a), first)
  const most = numbers.reduce((a, b) => (b.gt(a) ? b : a), first)
  const mean = sumOf(numbers).div(numbers.length)
  return {
    plots: numbers.length,
    mean: decimalText(mean),
    least: decimalText(least),
    most: decimalText(most),
  }
}

function percentText(share: Big): string {
  return decimalText(share.times(100))
}

function firstBelowZero(...values: readonly Numeric[]): ControlProblem | null {
  const found = values.find((value) => big(value).lt(0))
  return found === undefined ? null : { kind: 'below-zero', given: decimalText(found) }
}
