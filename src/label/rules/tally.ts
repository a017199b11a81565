import { big, compareNumbers, sumOf } from '#src/quantity/big.ts'
import type { AreaRate, Rate } from '#src/quantity/rate.ts'
import { areaRate, isSameForm } from '#src/quantity/rate.ts'
import { asActive, inUnitOf, strengthsOf } from '../amounts.ts'
import type { Active } from '../entry.ts'
import { areaRatesOf } from '../figures.ts'
import type { YearlyLimit } from '../limits.ts'
import type { PastTreatment } from '../situation.ts'
import type { Case } from './case.ts'
import { inScope } from './case.ts'
import { activeNamed, onThisGround, yearsHolding } from './year.ts'

/** How a yearly limit counts: as product (`active` is null), or as one active of this product. */
export interface Measure {
  readonly printed: readonly [AreaRate, ...AreaRate[]]
  readonly active: Active | null
}

export interface Tally {
  readonly limit: YearlyLimit
  readonly measure: Measure
  /** The printed line that counts: in the unit that was asked for where there is one. */
  readonly most: AreaRate
  readonly used: AreaRate
  readonly left: AreaRate
  readonly counted: readonly PastTreatment[]
  /** Treatments that count, of which the log does not say how much. */
  readonly untold: readonly PastTreatment[]
}

/** Several rules ask for the same case. */
const tallied = new WeakMap<Case, readonly Tally[]>()

/** Every yearly limit that holds here, with what was used of it and what is left. */
export function talliesOf(asked: Case): readonly Tally[] {
  const before = tallied.get(asked)
  if (before !== undefined) return before
  const tallies = tallyAll(asked)
  tallied.set(asked, tallies)
  return tallies
}

function tallyAll(asked: Case): readonly Tally[] {
  return inScope(asked.entry.limits.perYear, asked).flatMap((limit) => {
    const measure = measureOf(limit, asked)
    return measure === null ? [] : [worstYear(limit, measure, asked)]
  })
}

function measureOf(limit: YearlyLimit, { entry }: Case): Measure | null {
  const [first, ...more] = areaRatesOf(entry, limit.rates)
  if (first === undefined) return null
  if (first.of === 'product' && limit.counts === 'product') return { printed: [first, ...more], active: null }
  const active = entry.actives.find(({ name }) => name === limit.active) ?? entry.actives[0]
  if (active === undefined) return null
  const [counted, ...others] = [first, ...more]
    .map((rate) => asCounted(rate, active))
    .filter((rate) => rate !== null)
  return counted === undefined ? null : { printed: [counted, ...others], active }
}

/** A limit of product that counts every product with the active is a limit of that active. */
function asCounted(rate: AreaRate, active: Active): AreaRate | null {
  if (rate.of !== 'product') return rate
  const stated = strengthsOf(active).find(({ of }) => of === 'ai')
  return stated === undefined ? null : asActive(rate, stated)
}

/** Of the years that hold today, the one in which most was used. */
function worstYear(limit: YearlyLimit, measure: Measure, asked: Case): Tally {
  const { today, treatments } = asked.situation
  const relevant = onThisGround(treatments).filter((treatment) => isTallied(treatment, limit, measure, asked))
  const tallies = yearsHolding(today, limit.period, relevant).map((year) =>
    tally(year, limit, measure, asked),
  )
  return tallies.reduce((worst, next) => (isMore(next, worst) ? next : worst))
}

function isMore(a: Tally, b: Tally): boolean {
  return compareNumbers(a.used.value, b.used.value) > 0 || a.untold.length > b.untold.length
}

function isTallied(
  treatment: PastTreatment,
  { counts }: YearlyLimit,
  { active }: Measure,
  { entry }: Case,
): boolean {
  if (treatment.entry === entry.name) return true
  return counts === 'active' && active !== null && activeNamed(treatment, active.name) !== undefined
}

function tally(year: readonly PastTreatment[], limit: YearlyLimit, measure: Measure, asked: Case): Tally {
  const most = lineFor(asked.situation.rate, measure)
  const amounts = year.map((treatment) => ({ treatment, amount: amountOf(treatment, measure, most) }))
  const used = sumOf(amounts.flatMap(({ amount }) => (amount === null ? [] : [amount.value])))
  const left = big(most.value).minus(used)
  return {
    limit,
    measure,
    most,
    used: areaRate(used, most.unit, most.per, most.of),
    left: areaRate(left.lt(0) ? 0 : left, most.unit, most.per, most.of),
    counted: year,
    untold: amounts.flatMap(({ treatment, amount }) => (amount === null ? [treatment] : [])),
  }
}

/** The number printed in the very unit of the rate; without one the most generous, as they differ by rounding only. */
function lineFor(rate: Rate | undefined, { printed: [first, ...others] }: Measure): AreaRate {
  const same = [first, ...others].find((line) => rate !== undefined && isSameForm(rate, line))
  const isMoreThan = (a: AreaRate, b: AreaRate) => compareNumbers(inUnitOf(a, b)?.value ?? 0, b.value) > 0
  return same ?? others.reduce((most, line) => (isMoreThan(line, most) ? line : most), first)
}

function amountOf(treatment: PastTreatment, { active }: Measure, like: AreaRate): AreaRate | null {
  if (active === null) return treatment.product === undefined ? null : inUnitOf(treatment.product, like)
  const amount = activeNamed(treatment, active.name)?.amounts.find(({ of }) => of === like.of)
  return amount === undefined ? null : inUnitOf(amount, like)
}
