import { big, compareNumbers, sumOf } from '#src/quantity/big.ts'
import type { AreaRate, Strength } from '#src/quantity/rate.ts'
import { areaRate } from '#src/quantity/rate.ts'
import type { AmountUnit } from '#src/quantity/units.ts'
import { asActive, asProduct, compareAreaRates, inUnitOf, lineToCheck, onTheGround } from '../amounts.ts'
import type { Active } from '../entry.ts'
import { areaRatesOf, rateParam } from '../figures.ts'
import type { YearlyLimit } from '../limits.ts'
import type { PastTreatment } from '../situation.ts'
import type { Ceiling, Reason, YearLeft } from '../verdict.ts'
import { reason } from '../verdict.ts'
import type { Case } from './case.ts'
import { inScope } from './case.ts'
import { highestOnGround, strengthsOf } from './rate.ts'
import { activeNamed, freesOn, onThisGround, yearsHolding } from './year.ts'

/** How a yearly limit counts: as product, or as one active at the strength that this product has of it. */
interface Measure {
  readonly printed: readonly AreaRate[]
  readonly by: { readonly active: Active; readonly strength: Strength } | null
}

interface Tally {
  readonly limit: YearlyLimit
  readonly measure: Measure
  /** The printed line that counts, in the unit that was asked for where there is one. */
  readonly most: AreaRate
  readonly used: AreaRate
  readonly left: AreaRate
  readonly counted: readonly PastTreatment[]
  /** Treatments that count, of which the log does not say how much. */
  readonly untold: readonly PastTreatment[]
}

/** What each yearly limit leaves for this ground today. */
export function talliesOf(asked: Case): readonly Tally[] {
  return inScope(asked.entry.limits.perYear, asked).flatMap((limit) => {
    const measure = measureOfLimit(limit, asked)
    return measure === null ? [] : [worstYear(limit, measure, asked)]
  })
}

function measureOfLimit(limit: YearlyLimit, { entry }: Case): Measure | null {
  const printed = areaRatesOf(entry, limit.rates)
  const [first] = printed
  if (first === undefined) return null
  if (first.of === 'product' && limit.counts === 'product') return { printed, by: null }
  const active = entry.actives.find(({ name }) => name === limit.active) ?? entry.actives[0]
  const of = first.of === 'product' ? 'ai' : first.of
  const strength = active && strengthsOf(active).find((stated) => stated.of === of)
  if (active === undefined || strength === undefined) return null
  const counted = printed.map((rate) => (rate.of === 'product' ? asActive(rate, strength) : rate))
  return { printed: counted.filter((rate) => rate !== null), by: { active, strength } }
}

/** Of the years that hold today, the one in which most was used. */
function worstYear(limit: YearlyLimit, measure: Measure, asked: Case): Tally {
  const { today, treatments } = asked.situation
  const relevant = onThisGround(treatments).filter((treatment) => counts(treatment, limit, measure, asked))
  const tallies = yearsHolding(today, limit.period, relevant).map((year) =>
    tally(year, limit, measure, asked),
  )
  return tallies.reduce((worst, next) =>
    compareNumbers(next.used.value, worst.used.value) > 0 ? next : worst,
  )
}

function counts(treatment: PastTreatment, limit: YearlyLimit, { by }: Measure, { entry }: Case): boolean {
  if (limit.counts === 'product' || by === null) return treatment.entry === entry.name
  return treatment.entry === entry.name || activeNamed(treatment, by.active.name) !== undefined
}

function tally(year: readonly PastTreatment[], limit: YearlyLimit, measure: Measure, asked: Case): Tally {
  const job = jobIn(measure, asked)
  const most = (job && lineToCheck(job, measure.printed)) ?? measure.printed[0] ?? noLimit()
  const amounts = year.map((treatment) => ({ treatment, amount: amountOf(treatment, measure, most) }))
  const told = amounts.map(({ amount }) => amount).filter((amount) => amount !== null)
  const used = sumOf(told.map(({ value }) => value))
  const left = big(most.value).minus(used)
  return {
    limit,
    measure,
    most,
    used: areaRate(used, most.unit, most.per, most.of),
    left: areaRate(left.lt(0) ? 0 : left, most.unit, most.per, most.of),
    counted: year,
    untold: amounts.filter(({ amount }) => amount === null).map(({ treatment }) => treatment),
  }
}

function noLimit(): never {
  throw new RangeError(
    'Cannot count against a yearly limit without a rate: entries are checked before they are kept',
  )
}

function amountOf(treatment: PastTreatment, { by }: Measure, like: AreaRate): AreaRate | null {
  if (by === null) return treatment.product === undefined ? null : inUnitOf(treatment.product, like)
  const amount = activeNamed(treatment, by.active.name)?.amounts.find(({ of }) => of === like.of)
  return amount === undefined ? null : inUnitOf(amount, like)
}

/** The treatment that is asked about, counted as the limit counts; null when there is no rate or it does not say. */
function jobIn({ by }: Measure, { situation }: Case): AreaRate | null {
  const ground = situation.rate === undefined ? null : onTheGround(situation.rate, situation.output)
  if (ground === null) return null
  if (by === null) return ground.of === 'product' ? ground : null
  if (ground.of === by.strength.of) return ground
  return ground.of === 'product' ? asActive(ground, by.strength) : null
}

/** With this treatment the yearly limit would be passed, or nothing is left of it. */
export function checkYearly(asked: Case): readonly Reason[] {
  return talliesOf(asked).flatMap((tally) => [...untoldReasons(tally), ...leftReasons(tally, asked)])
}

function untoldReasons({ untold, limit }: Tally): Reason[] {
  return untold.map(({ on, entry }) =>
    reason('hold', 'amount-unknown', { day: { day: on }, product: entry }, limit),
  )
}

function leftReasons(tally: Tally, asked: Case): Reason[] {
  const { limit, most, used, left, measure } = tally
  const parameters = { limit: rateParam(most), used: rateParam(used), left: rateParam(left) }
  if (asked.situation.rate === undefined) return withoutRate(tally, parameters, asked)
  const job = jobIn(measure, asked)
  const same = job && inUnitOf(job, most)
  if (same === null)
    return [reason('question', 'cannot-compare', { rate: rateParam(asked.situation.rate) }, limit)]
  if (compareNumbers(sumOf([used.value, same.value]), most.value) <= 0) return []
  return [reason('refusal', 'above-year', { ...parameters, rate: rateParam(same) }, limit)]
}

function withoutRate({ limit, left, measure }: Tally, parameters: Reason['with'], asked: Case): Reason[] {
  if (compareNumbers(left.value, 0) <= 0) return [reason('refusal', 'year-used-up', parameters, limit)]
  const highest = measure.by === null ? highestOnGround(asked, left) : null
  const isShort = highest !== null && compareAreaRates(left, highest) === -1
  return isShort ? [reason('heads-up', 'year-nearly', parameters, limit)] : []
}

/** What is left of each yearly limit, for the answer and for `what is left of the year`. */
export function yearLeftOf(asked: Case): readonly YearLeft[] {
  return talliesOf(asked).map(({ limit, most, used, left, measure, counted }) => {
    const frees = freesOn(limit.period, counted)
    return {
      limit: most,
      used,
      left,
      ...(measure.by === null ? {} : { active: measure.by.active.name }),
      ...(frees === null ? {} : { freesOn: frees }),
    }
  })
}

/** What is left of each yearly limit, as a limit of product for this treatment. */
export function yearCeilings(asked: Case): readonly Ceiling[] {
  const unit: AmountUnit = asked.entry.form === 'dry' ? 'oz wt' : 'fl oz'
  return talliesOf(asked).flatMap(({ left, measure, limit }): Ceiling[] => {
    const product = measure.by === null ? left : asProduct(left, measure.by.strength, unit)
    if (product === null) return []
    const source = {
      ...(limit.line === undefined ? {} : { line: limit.line }),
      ...(limit.page === undefined ? {} : { page: limit.page }),
    }
    return [{ why: 'left-this-year', rates: [product], ...source }]
  })
}
