import { big, compareNumbers, sumOf } from '#src/quantity/big.ts'
import type { AreaRate, Rate, RateForm } from '#src/quantity/rate.ts'
import { areaRate, formOf, isSameForm } from '#src/quantity/rate.ts'
import { asActive, figuresFor, inForm, inUnitOf, strengthsOf } from '../amounts.ts'
import type { Active } from '../entry.ts'
import { areaRatesOf, rateParam } from '../figures.ts'
import type { YearlyLimit } from '../limits.ts'
import { sourceOf } from '../printed.ts'
import type { RateLine } from '../rate-line.ts'
import type { PastTreatment } from '../situation.ts'
import type { Ceiling, Reason, YearLeft } from '../verdict.ts'
import { reason } from '../verdict.ts'
import type { Case } from './case.ts'
import { inScope } from './case.ts'
import { cannotCompare, highsOf } from './rate.ts'
import { activeNamed, freesOn, onThisGround, yearsHolding } from './year.ts'

/** How a yearly limit counts: as product (`active` is null), or as one active of this product. */
interface Measure {
  readonly printed: readonly [AreaRate, ...AreaRate[]]
  readonly active: Active | null
}

interface Tally {
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

function talliesOf(asked: Case): readonly Tally[] {
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

/** With this treatment the yearly limit would be passed, or nothing is left of it. */
export function checkYearly(asked: Case): readonly Reason[] {
  return talliesOf(asked).flatMap((found) => [...untoldReasons(found), ...leftReasons(found, asked)])
}

function untoldReasons({ untold, limit }: Tally): Reason[] {
  return untold.map(({ on, entry }) =>
    reason('hold', 'amount-unknown', { day: { day: on }, product: entry }, limit),
  )
}

function leftReasons(found: Tally, asked: Case): Reason[] {
  const { limit, most, used, left, measure } = found
  const { rate, output } = asked.situation
  const parameters = { limit: rateParam(most), used: rateParam(used), left: rateParam(left) }
  if (rate === undefined) return withoutRate(found, parameters, asked)
  const job = inUnitOf(rate, most, figuresFor(asked.entry, output, measure.active ?? undefined))
  if (job === null) return [cannotCompare(rate, output === undefined ? 'output' : undefined, limit)]
  if (compareNumbers(sumOf([used.value, job.value]), most.value) <= 0) return []
  return [reason('refusal', 'above-year', { ...parameters, rate: rateParam(job) }, limit)]
}

function withoutRate(found: Tally, parameters: Reason['with'], asked: Case): Reason[] {
  const { limit, left, counted } = found
  if (big(left.value).lte(0)) {
    const next = { day: freesOn(limit.period, counted) ?? asked.situation.today }
    return [reason('refusal', 'year-used-up', { ...parameters, next }, limit)]
  }
  const isEnough = asked.lines.every((line) => isEnoughFor(line, found, asked))
  return isEnough ? [] : [reason('heads-up', 'year-nearly', parameters, limit)]
}

/** Is the highest rate of a line still left? Unknown counts as yes, since the rate itself is checked later. */
function isEnoughFor(line: RateLine, { left, measure }: Tally, { entry, situation }: Case): boolean {
  const figures = figuresFor(entry, situation.output, measure.active ?? undefined)
  return highsOf(entry, line)
    .map((high) => inUnitOf(high, left, figures))
    .some((high) => high === null || compareNumbers(high.value, left.value) <= 0)
}

/** What is left of each yearly limit on this ground. */
export function yearLeftOf(asked: Case): readonly YearLeft[] {
  return talliesOf(asked).map(({ limit, most, used, left, measure, counted }) => {
    const frees = freesOn(limit.period, counted)
    return {
      limit: most,
      used,
      left,
      ...(measure.active === null ? {} : { active: measure.active.name }),
      ...(frees === null ? {} : { freesOn: frees }),
    }
  })
}

/** What is left of each yearly limit, as limits of product for the next treatment with one rate line. */
export function yearCeilings(asked: Case, line: RateLine): readonly Ceiling[] {
  const [form] = highsOf(asked.entry, line)
    .filter(({ kind }) => kind === 'area')
    .map(formOf)
  return talliesOf(asked).flatMap(({ left, measure, limit }): Ceiling[] => {
    const product = asProduct(left, measure, { form, asked })
    return product === null ? [] : [{ why: 'left-this-year', rates: [product], ...sourceOf(limit) }]
  })
}

function asProduct(
  left: AreaRate,
  { active }: Measure,
  { form, asked }: { readonly form: RateForm | undefined; readonly asked: Case },
): Rate | null {
  if (active === null) return left
  const unit = asked.entry.form === 'dry' ? 'oz wt' : 'fl oz'
  const wanted = form?.of === 'product' ? form : formOf(areaRate(0, unit, left.per))
  return inForm(left, wanted, figuresFor(asked.entry, undefined, active))
}
