import { big, compareNumbers, sumOf } from '#src/quantity/big.ts'
import type { AreaRate, Rate, RateForm } from '#src/quantity/rate.ts'
import { areaRate, formOf } from '#src/quantity/rate.ts'
import { figuresFor, inForm, inUnitOf } from '../amounts.ts'
import { rateParam } from '../figures.ts'
import { sourceOf } from '../printed.ts'
import type { RateLine } from '../rate-line.ts'
import type { Ceiling, Reason, YearLeft } from '../verdict.ts'
import { reason } from '../verdict.ts'
import type { Case } from './case.ts'
import { cannotCompare, highsOf } from './rate.ts'
import type { Measure, Tally } from './tally.ts'
import { talliesOf } from './tally.ts'
import { freesOn } from './year.ts'

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
