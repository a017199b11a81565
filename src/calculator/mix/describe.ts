import { compareNumbers, decimalText } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { scale, subtract } from '#src/quantity/quantity.ts'
import type { Rate } from '#src/quantity/rate.ts'
import type { AmountUnit } from '#src/quantity/units.ts'
import { step } from '../worked.ts'
import { doseAdjuvants } from './adjuvants.ts'
import { describeAmount } from './amount.ts'
import { checksOf, mixProblem, refuseRate } from './context.ts'
import { MOST_SHIFT } from './dose.ts'
import { areaCovered, findTrap, leftoverOf, rateOnGround, shareOf } from './ground.ts'
import { notesOf } from './notes.ts'
import type { MixOutcome } from './outcome.ts'
import type { FillPlan } from './plan-fill.ts'
import { productAmount, proveRate } from './strength.ts'
import { workingOf } from './working.ts'

/**
 * The answer for a planned filling, proved backwards: from the amounts as measured the rate is worked out anew and
 * held against every limit. A proof that fails is no answer.
 */
export function describeMix(plan: FillPlan): MixOutcome {
  const { context, request, fillTo, inTank } = plan
  const { rate, figures } = request
  const proven = proveRate(productInTank(plan), fillTo, rate, figures)
  if (!proven.ok) return mixProblem(proven.error)
  const refused = refuseRate(proven.value, context) ?? refuseMarks(plan, proven.value)
  if (refused) return refused
  const fresh = inTank ? subtract(fillTo, inTank.volume) : fillTo
  const adjuvants = doseAdjuvants(request.adjuvants ?? [], fresh, request.tools, figures)
  if (!adjuvants.ok) return adjuvants.error
  const mix = {
    concentrate: plan.dose && describeAmount(plan.dose, context.strength.count, context.unit),
    fillTo,
    alreadyIn: inTank?.volume,
    areaCovered: figures.output && areaCovered(fillTo, figures.output),
    rateApplied: proven.value,
    rateShare: decimalText(shareOf(proven.value, rate)),
    rateOnGround: rateOnGround(proven.value, figures),
    ceilings: checksOf(proven.value, context),
    adjuvants: adjuvants.value,
    leftover: leftoverOf(fillTo, request.ground, figures.output),
    trap: findTrap(rate, figures.output, request.usualOutput, figures),
  }
  const working = workingOf(plan, mix)
  return { outcome: 'answer', mix: { ...mix, working, notes: notesOf(plan, mix) } }
}

/** All product in the filled tank: what was in it, and what is added as measured. */
function productInTank({ context, held, dose }: FillPlan): Quantity<AmountUnit> {
  const { count } = context.strength
  return productAmount(held.plus(dose?.measured ?? 0), count, dose?.tool?.unit ?? context.unit)
}

/** Where nothing is added only the marks of the tank can move the rate; they may not move it far. */
function refuseMarks(
  { dose, inTank, request, fillTo, context }: FillPlan,
  applied: Rate,
): MixOutcome | undefined {
  if (dose || !inTank) return undefined
  const shift = shareOf(applied, request.rate).minus(1).abs()
  if (compareNumbers(shift, MOST_SHIFT) <= 0) return undefined
  const percent = decimalText(shift.times(100).toSignificantDigits(2))
  const exact = scale(fillTo, shareOf(applied, request.rate))
  const reason = step('mix.too-coarse.marks', { exact, measured: fillTo, percent })
  return {
    outcome: 'too-coarse',
    of: context.basis.mark ? 'marks' : 'fill',
    exact,
    measured: fillTo,
    shift: decimalText(shift),
    proposals: [],
    reason,
  }
}
