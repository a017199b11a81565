import { inUnitOf } from '#src/label/amounts.ts'
import type { Day } from '#src/label/day.ts'
import { addDays } from '#src/label/day.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import type { Case } from '#src/label/rules/case.ts'
import { inScope } from '#src/label/rules/case.ts'
import { isCounted, onThisGround, yearsHolding } from '#src/label/rules/year.ts'
import type { AllowSettings, Situation } from '#src/label/situation.ts'
import { allowDefaults } from '#src/label/situation.ts'
import type { Ceiling, Verdict } from '#src/label/verdict.ts'
import { big, compareNumbers, decimalText } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn, quantity } from '#src/quantity/quantity.ts'
import type { AreaRate } from '#src/quantity/rate.ts'
import { roundToStep } from '#src/quantity/round.ts'

/** How many more applications the label allows on this ground within the year; null when it counts none. */
export function applicationsLeft(
  entry: LabelEntry,
  situation: Situation,
  { verdict, settings = allowDefaults }: { readonly verdict: Verdict; readonly settings?: AllowSettings },
): number | null {
  const asked: Case = { entry, situation, settings, lines: verdict.rateLines }
  const left = inScope(entry.limits.treatments, asked).map((limit) => {
    const counted = onThisGround(situation.treatments).filter((one) => isCounted(entry, limit.counts, one))
    const years = yearsHolding(situation.today, limit.period, counted)
    return limit.most - Math.max(0, ...years.map(({ length }) => length))
  })
  return left.length === 0 ? null : Math.max(0, Math.min(...left))
}

export interface IntervalOver {
  readonly days: number
  /** First day after it, counted from the last treatment that the label counts. */
  readonly on: Day
}

/** The longest of the label's intervals that this ground has waited, or waits; null when none was begun. */
export function intervalOver(
  entry: LabelEntry,
  situation: Situation,
  { verdict, settings = allowDefaults }: { readonly verdict: Verdict; readonly settings?: AllowSettings },
): IntervalOver | null {
  const asked: Case = { entry, situation, settings, lines: verdict.rateLines }
  const waits = inScope(entry.limits.interval, asked).flatMap(({ days, counts }): IntervalOver[] => {
    const last = onThisGround(situation.treatments)
      .filter((one) => isCounted(entry, counts, one))
      .map(({ on }) => on)
      .sort()
      .at(-1)
    return last === undefined ? [] : [{ days, on: addDays(last, days) }]
  })
  return waits.sort((a, b) => (a.on < b.on ? 1 : -1))[0] ?? null
}

export interface MostLeft {
  /** The most product per area that is left of the year. */
  readonly rate: AreaRate
  /** That rate over the ground, exactly. */
  readonly exact: Quantity
  /** The same in whole steps of the tool, never up. */
  readonly measured: Quantity
  readonly line?: string
  readonly page?: string
}

/**
 * What is left of the year on a piece of ground, as an amount to measure: the tightest of the yearly limits. Null when
 * the label has none, or none that can be told as product.
 * @param ground.areaFt2 treated ground in square feet, as decimal text
 * @param ground.step one step of the tool
 */
export function mostLeftOf(
  { ceilings }: Pick<Verdict, 'ceilings'>,
  ground: { readonly areaFt2: string; readonly step: Quantity },
): MostLeft | null {
  const limits = ceilings.filter(({ why }) => why === 'left-this-year').flatMap(toRates)
  const [first, ...others] = limits
  if (first === undefined) return null
  const tightest = others.reduce((least, one) => (isLess(one.rate, least.rate) ? one : least), first)
  const { rate } = tightest
  const share = big(ground.areaFt2).div(amountIn(rate.per, 'ft2'))
  const exact = quantity(big(rate.value).times(share), rate.unit)
  const inTool = amountIn(exact, ground.step.unit)
  return {
    ...tightest,
    exact,
    measured: { value: decimalText(roundToStep(inTool, ground.step.value, 'down')), unit: ground.step.unit },
  }
}

type RateOfLimit = Pick<MostLeft, 'rate' | 'line' | 'page'>

function toRates({ rates, line, page }: Ceiling): readonly RateOfLimit[] {
  return rates.flatMap((rate) =>
    rate.kind === 'area' && rate.of === 'product'
      ? [{ rate, ...(line === undefined ? {} : { line }), ...(page === undefined ? {} : { page }) }]
      : [],
  )
}

function isLess(rate: AreaRate, than: AreaRate): boolean {
  const same = inUnitOf(rate, than)
  return same !== null && compareNumbers(same.value, than.value) < 0
}
