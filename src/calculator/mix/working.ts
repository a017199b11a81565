import { compareNumbers } from '#src/quantity/big.ts'
import { amountIn, subtract } from '#src/quantity/quantity.ts'
import { sayOutput, sayRate } from '#src/quantity/said.ts'
import type { Step } from '../worked.ts'
import { step } from '../worked.ts'
import { areaCovered } from './ground.ts'
import type { Mix } from './outcome.ts'
import type { FillPlan } from './plan-fill.ts'
import type { Volume } from './request.ts'
import { productAmount } from './strength.ts'

type Described = Omit<Mix, 'working' | 'notes'>

/** The way from the question to the amount and back, step by step, so that a wrong input shows. */
export function workingOf(plan: FillPlan, mix: Described): readonly Step[] {
  return [
    ...fillSteps(plan),
    ...plan.context.productWorking,
    ...productSteps(plan),
    ...measuringSteps(plan, mix),
  ]
}

function fillSteps({ request, fillTo, inTank, dose }: FillPlan): readonly Step[] {
  const steps: Step[] = []
  const isMoved = compareNumbers(amountIn(request.fill, fillTo.unit), fillTo.value) !== 0
  if (isMoved && request.mark && dose)
    steps.push(step('mix.step.marked', { asked: request.fill, fill: fillTo, mark: request.mark }))
  if (inTank?.kind === 'same') {
    const fresh = subtract(fillTo, inTank.volume)
    steps.push(step('mix.step.fresh', { fill: fillTo, inTank: inTank.volume, fresh }))
  }
  return steps
}

function productSteps(plan: FillPlan): readonly Step[] {
  const { inTank, fillTo, held, exact, dose, context } = plan
  const tell = (amount: typeof held) => productAmount(amount, context.strength.count, context.unit)
  if (inTank?.kind !== 'other')
    return dose ? neededSteps(plan, inTank ? subtract(fillTo, inTank.volume) : fillTo, tell(exact)) : []
  const holds = step('mix.step.holds', { volume: inTank.volume, amount: tell(held) })
  if (!dose) return [holds, step('mix.step.diluted', { amount: tell(held), fill: fillTo })]
  const whole = tell(held.plus(exact))
  return [
    ...neededSteps(plan, fillTo, whole),
    holds,
    step('mix.step.rest', { whole, held: tell(held), rest: tell(exact) }),
  ]
}

/** Ground covered times rate, or mix times strength. */
function neededSteps(
  { context, request }: FillPlan,
  mix: Volume,
  amount: ReturnType<typeof productAmount>,
): readonly Step[] {
  const { productRate } = context
  const { output } = request.figures
  if (productRate.kind !== 'area' || !output)
    return [step('mix.step.in-mix', { mix, rate: sayRate(productRate), amount })]
  const area = areaCovered(mix, output)
  return [
    step('mix.step.area', { mix, output: sayOutput(output), area }),
    step('mix.step.on-area', { area, rate: sayRate(productRate), amount }),
  ]
}

function measuringSteps({ dose, context, fillTo }: FillPlan, mix: Described): readonly Step[] {
  const proof = step('mix.step.proof', { fill: fillTo, rate: sayRate(mix.rateApplied) })
  if (!dose || !mix.concentrate) return [proof]
  const { measured, tool } = mix.concentrate
  const exact = productAmount(dose.exact, context.strength.count, measured.unit)
  const isExact = compareNumbers(exact.value, measured.value) === 0
  const way = compareNumbers(measured.value, exact.value) > 0 ? 'up' : 'down'
  const rounded = isExact
    ? []
    : [step('mix.step.rounded', { exact, measured, way, tool: tool?.name ?? 'none' })]
  return [...rounded, proof]
}
