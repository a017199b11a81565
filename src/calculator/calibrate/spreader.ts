import type { Big } from '#src/quantity/big.ts'
import { big, compareNumbers, decimalText } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn, compareQuantities, quantity, ratioOf, scale, subtract } from '#src/quantity/quantity.ts'
import type { AreaRate } from '#src/quantity/rate.ts'
import { areaRate } from '#src/quantity/rate.ts'
import { sayRate } from '#src/quantity/said.ts'
import type { Calculated, Finding } from '../worked.ts'
import { blocked, finding, step, worked } from '../worked.ts'
import type { Area, Mass } from './measured.ts'
import { doubts } from './measured.ts'
import { averageRuns, tooVaried } from './runs.ts'

/** A spreader passes within 5 percent of its target: UMass Extension, rotary spreader calibration. A setting. */
export const USUAL_SPREADER_PERCENT = 5

/**
 * Product needed for so much nutrient or active ingredient (F43): the target over the fraction in the bag.
 * @param target a weight per area of what is wanted
 * @param analysisPercent percent by weight in the product, above 0 up to 100
 */
export function granularTarget(target: AreaRate, analysisPercent: string): Calculated<AreaRate> {
  const outside = compareNumbers(analysisPercent, 0) <= 0 || compareNumbers(analysisPercent, 100) > 0
  if (outside)
    return blocked(
      finding('refusal', 'calibrate.bad-analysis', { given: { value: analysisPercent, unit: '%' } }),
    )
  const value = big(target.value).times(100).div(big(analysisPercent))
  const product = areaRate(value, target.unit, target.per, 'product')
  const figures = {
    target: sayRate(target),
    analysis: { value: analysisPercent, unit: '%' },
    product: sayRate(product),
  }
  return worked(product, [step('calibrate.granular-target', figures)])
}

export interface SpreaderRun {
  readonly before: Mass
  readonly after: Mass
  readonly ground: Area
}

export interface SpreaderTest {
  readonly rate: AreaRate
  /** From the target, in percent; negative when too little falls. Null without a target. */
  readonly deviationPercent: string | null
}

/**
 * What a spreader put down (F44), by weighing before and after, against a target if there is one (F47).
 * University of Illinois: try a drop spreader on 1,000 ft2, a rotary on about 5,000 ft2.
 */
export function testSpreader(
  runs: readonly SpreaderRun[],
  options: {
    readonly target?: AreaRate
    readonly tolerancePercent?: number
    readonly spreadLimitPercent?: number
  } = {},
): Calculated<SpreaderTest> {
  const [first] = runs
  if (first === undefined) throw new RangeError('Cannot test a spreader without a run')
  const problems = runs.flatMap(runProblems)
  if (problems.length > 0) return blocked(...problems)
  const unit = first.before.unit
  const perThousand = runs.map((run) => fallen(run, unit).div(amountIn(run.ground, '1000 ft2')))
  const all = averageRuns(perThousand)
  const rate = areaRate(all.mean, unit, { value: '1', unit: '1000 ft2' })
  const working = runs.map((run) =>
    step('calibrate.spreader-run', { used: quantity(fallen(run, unit), unit), ground: run.ground }),
  )
  const off = options.target === undefined ? null : deviationPercent(rate, options.target)
  return worked(
    { rate, deviationPercent: off },
    [...working, step('calibrate.spreader-rate', { rate: sayRate(rate), runs: runs.length })],
    [...tooVaried(all, options.spreadLimitPercent), ...offTarget(rate, off, options)],
  )
}

function runProblems(run: SpreaderRun): Finding[] {
  const found = doubts({ ground: run.ground, weight: run.before })
  if (compareNumbers(run.after.value, 0) < 0) found.push(...doubts({ weight: run.after }))
  if (compareQuantities(run.after, run.before) >= 0)
    found.push(finding('refusal', 'calibrate.nothing-fell', { before: run.before, after: run.after }))
  return found
}

function fallen(run: SpreaderRun, unit: Mass['unit']): Big {
  return amountIn(subtract(run.before, run.after), unit)
}

function deviationPercent(rate: AreaRate, target: AreaRate): string {
  const per = (one: AreaRate) => scale(quantity(one.value, one.unit), big(1).div(amountIn(one.per, 'ft2')))
  return decimalText(ratioOf(per(rate), per(target)).minus(1).times(100))
}

function offTarget(
  rate: AreaRate,
  off: string | null,
  options: { readonly target?: AreaRate; readonly tolerancePercent?: number },
): Finding[] {
  const limit = options.tolerancePercent ?? USUAL_SPREADER_PERCENT
  if (off === null || options.target === undefined || big(off).abs().lte(limit)) return []
  const figures = {
    rate: sayRate(rate),
    target: sayRate(options.target),
    off: { value: off, unit: '%' },
    limit: { value: String(limit), unit: '%' },
  }
  const id = big(off).gt(0) ? 'calibrate.spreader-heavy' : 'calibrate.spreader-light'
  return [finding('hold', id, figures)]
}

/** What to set the spreader to when it goes in two directions (F46): half, so that both together give the rate. */
export function halfRate(rate: AreaRate): AreaRate {
  return { ...rate, value: decimalText(big(rate.value).div(2)) }
}

/** Containers to carry (F48): always up. */
export function containersFor(total: Quantity, container: Quantity): number {
  return Math.ceil(Number(ratioOf(total, container).toSignificantDigits(30)))
}
