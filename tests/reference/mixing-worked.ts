import { areaCovered, mixFor } from '#src/calculator/mix/ground.ts'
import { planFill } from '#src/calculator/mix/plan-fill.ts'
import { planJob } from '#src/calculator/mix/plan-job.ts'
import { convertRate } from '#src/calculator/rate/convert.ts'
import type { Figures } from '#src/calculator/rate/figures.ts'
import type { Big } from '#src/quantity/big.ts'
import { big } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import type { Rate, ShareRate } from '#src/quantity/rate.ts'
import type { AmountUnit, UnitId } from '#src/quantity/units.ts'
import { area, density, form, output, rate, strength, sure, volume } from '#tests/quantity/read.ts'

/** Water in the sources that weigh it: US Army MD0173. */
export const WATER = density('8.34 lb/gal')

export interface Given {
  readonly output?: string
  readonly strength?: string
  readonly figures?: Figures
}

function figuresOf({ output: out, strength: strong, figures }: Given): Figures {
  return {
    ...(out ? { output: output(out) } : {}),
    ...(strong ? { strengths: [strength(strong)] } : {}),
    ...figures,
  }
}

const rateOf = (typed: string | Rate) => (typeof typed === 'string' ? rate(typed) : typed)

/** So much active in the finished mix, by weight. */
export function activeShare(percent: string): ShareRate {
  return { kind: 'share', value: percent, unit: '%', of: 'ai', basis: 'w/w' }
}

/** The exact product of one filling, as a bare number of a unit. */
export function inTank(typed: string | Rate, fill: string, unit: AmountUnit, given: Given = {}): Big {
  const outcome = planFill({ rate: rateOf(typed), figures: figuresOf(given), fill: volume(fill) })
  if (outcome.outcome !== 'answer' || !outcome.mix.concentrate)
    throw new Error(`No amount: ${outcome.outcome}`)
  return amountIn(outcome.mix.concentrate.exact, unit)
}

/** The exact product of a whole job, as a bare number of a unit; it does not depend on output or tank. */
export function onGround(typed: string, ground: Quantity<'acre' | 'ft2'>, unit: AmountUnit): Big {
  const figures = { output: output('40 gal/acre') }
  const outcome = planJob({ rate: rate(typed), figures, ground, capacity: volume('100 gal') })
  if (outcome.outcome !== 'answer') throw new Error(`No job: ${outcome.outcome}`)
  return amountIn(outcome.job.totalExact, unit)
}

/** A rate in another form, as a bare number. */
export function turned(from: string | Rate, to: string, given: Given = {}): Big {
  const converted = sure(convertRate(rateOf(from), form(to), figuresOf(given))).rate.value
  return big(converted)
}

/** The ground that a filling covers, in acres. */
export function acresFrom(fill: string, out: string): Big {
  return amountIn(areaCovered(volume(fill), output(out)), 'acre')
}

/** The mix that a ground takes, in gallons. */
export function gallonsFor(ground: string, out: string): Big {
  return amountIn(mixFor(area(ground), output(out), 'gal'), 'gal')
}

/** A plain amount in another unit. */
export function changed(from: Quantity, unit: UnitId): Big {
  return amountIn(from, unit)
}
