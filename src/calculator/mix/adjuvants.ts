import { amountIn, isZero } from '#src/quantity/quantity.ts'
import type { Result } from '#src/quantity/result.ts'
import { fail, ok } from '#src/quantity/result.ts'
import type { Figures } from '../rate/figures.ts'
import { describeAmount } from './amount.ts'
import { mixProblem, openMix, staysWithin } from './context.ts'
import { describeHold } from './describe-hold.ts'
import { measureDose } from './dose.ts'
import type { AdjuvantAmount, NoMix } from './outcome.ts'
import type { Adjuvant, Tool, Volume } from './request.ts'
import { productAmount, proveRate } from './strength.ts'

/**
 * What goes into the mix that is newly made (F28): mix that was in the tank already has its share. An adjuvant knows
 * the output but not the figures of the product.
 */
export function doseAdjuvants(
  adjuvants: readonly Adjuvant[],
  fresh: Volume,
  tools: readonly Tool[] | undefined,
  { output }: Figures,
): Result<readonly AdjuvantAmount[], NoMix> {
  if (isZero(fresh)) return ok([])
  const amounts: AdjuvantAmount[] = []
  for (const adjuvant of adjuvants) {
    const amount = doseAdjuvant(adjuvant, fresh, tools, output ? { output } : {})
    if (!amount.ok) return amount
    amounts.push(amount.value)
  }
  return ok(amounts)
}

function doseAdjuvant(
  { name, rate, maxima }: Adjuvant,
  fresh: Volume,
  tools: readonly Tool[] | undefined,
  figures: Figures,
): Result<AdjuvantAmount, NoMix> {
  const opened = openMix({ rate, figures, ...(maxima ? { maxima } : {}), ...(tools ? { tools } : {}) }, fresh)
  if (!opened.ok) return opened
  const { strength, unit } = opened.value
  const exact = amountIn(fresh, 'mL').times(strength.number)
  const dosed = measureDose({
    exact,
    count: strength.count,
    unit,
    tools,
    against: exact,
    isAllowed: (amount) => staysWithin(productAmount(amount, strength.count, unit), fresh, opened.value),
    isEnough: () => true,
    way: maxima && maxima.length > 0 ? 'nearest' : 'down',
  })
  if (dosed.kind !== 'measured') {
    return fail(describeHold(dosed, { of: name, exact, count: strength.count, unit, proposals: [] }))
  }
  const amount = describeAmount(dosed.dose, strength.count, unit)
  const proven = proveRate(amount.measured, fresh, rate, figures)
  return proven.ok ? ok({ ...amount, name, rateApplied: proven.value }) : fail(mixProblem(proven.error))
}
