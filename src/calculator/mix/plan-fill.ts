import type { Big } from '#src/quantity/big.ts'
import { compareNumbers } from '#src/quantity/big.ts'
import {
  amountIn,
  compareQuantities,
  convertNumber,
  isZero,
  quantity,
  ratioOf,
  scale,
  subtract,
} from '#src/quantity/quantity.ts'
import type { Result } from '#src/quantity/result.ts'
import { fail, ok } from '#src/quantity/result.ts'
import { step } from '../worked.ts'
import type { MixContext } from './context.ts'
import { mixProblem, openMix, staysWithin } from './context.ts'
import { describeMix } from './describe.ts'
import { describeHold } from './describe-hold.ts'
import type { Dose, Dosed } from './dose.ts'
import { measureDose } from './dose.ts'
import { hasRoomFor, toMark } from './marks.ts'
import type { MixOutcome, NoMix, Proposal } from './outcome.ts'
import { proposeWaysOut } from './propose.ts'
import type { FillRequest, InTank, Volume } from './request.ts'
import { productAmount, proveRate, strengthOfMix } from './strength.ts'
import type { FittedTool } from './tool.ts'

/** How a filling is made up, in mL of mix and in g or mL of product. */
export interface FillPlan {
  readonly context: MixContext
  readonly request: FillRequest
  readonly fillTo: Volume
  readonly inTank: InTank | undefined
  /** Product that is in the tank already. */
  readonly held: Big
  /** Product to be added, exactly; zero when nothing is. */
  readonly exact: Big
  readonly dose: Dose | undefined
}

/** A plan before its product is measured. */
type Undosed = Omit<FillPlan, 'exact' | 'dose'>

/**
 * One filling of the tank: rounds it to the marks, works out the product that it needs with what is in the tank
 * already, rounds that to the tool, and proves the rate backwards. Formulas F20 to F28 of the trade.
 */
export function planFill(request: FillRequest): MixOutcome {
  const opened = openMix(request, request.fill)
  if (!opened.ok) return opened.error
  const inTank = request.inTank && !isZero(request.inTank.volume) ? request.inTank : undefined
  const fillTo = chooseFill(request, inTank)
  if (!fillTo.ok) return fillTo.error
  const held = productHeld(inTank, opened.value)
  if (!held.ok) return held.error
  const needed = productNeeded(fillTo.value, opened.value)
  const short = needed.minus(held.value)
  const plan = { context: opened.value, request, fillTo: fillTo.value, inTank, held: held.value }
  const order = compareNumbers(needed, held.value)
  if (order > 0) return addProduct({ ...plan, exact: short, dose: undefined })
  return order === 0 ? describeMix({ ...plan, exact: short.times(0), dose: undefined }) : dilute(plan)
}

function productNeeded(fill: Volume, { strength }: MixContext): Big {
  return amountIn(fill, 'mL').times(strength.number)
}

/** The filling on a mark of the tank, never below what is in it already. */
function chooseFill(request: FillRequest, inTank: InTank | undefined): Result<Volume, NoMix> {
  const { fill, mark, capacity } = request
  if (!hasRoomFor(fill, capacity)) return fail(notFit(fill, capacity ?? fill, false))
  if (inTank && !hasRoomFor(inTank.volume, fill)) return fail(tooMuchInTank(request, inTank))
  const nearest = toMark(fill, mark, capacity, 'nearest')
  const isEnough = !inTank || compareQuantities(nearest, inTank.volume) >= 0
  return ok(isEnough ? nearest : toMark(fill, mark, capacity, 'up'))
}

function tooMuchInTank({ fill, capacity }: FillRequest, { volume }: InTank): NoMix {
  if (capacity && !hasRoomFor(volume, capacity))
    return mixProblem({ kind: 'in-tank-above-capacity', inTank: volume, capacity })
  return mixProblem({ kind: 'in-tank-above-fill', inTank: volume, fill })
}

function productHeld(inTank: InTank | undefined, context: MixContext): Result<Big, NoMix> {
  const { strength, basis } = context
  if (!inTank) return ok(strength.number.times(0))
  if (inTank.kind === 'same') return ok(productNeeded(inTank.volume, context))
  const figures = inTank.output ? { ...basis.figures, output: inTank.output } : basis.figures
  const other = strengthOfMix(inTank.rate, figures, strength.count)
  if (!other.ok) return fail(mixProblem(other.error))
  return ok(amountIn(inTank.volume, 'mL').times(other.value.number))
}

function addProduct(plan: FillPlan): MixOutcome {
  const dosed = doseFill(plan, plan.fillTo)
  return dosed.kind === 'measured' ? describeMix({ ...plan, dose: dosed.dose }) : holdDose(plan, dosed)
}

/** The product for a filling of this size, beside what the tank holds already. */
function doseFill({ context, request, inTank, held }: FillPlan, fillTo: Volume): Dosed {
  const { strength, unit, basis } = context
  const isSame = inTank?.kind !== 'other'
  const fresh = inTank && isSame ? subtract(fillTo, inTank.volume) : fillTo
  const beside = isSame ? held.times(0) : held
  const exact = productNeeded(fillTo, context).minus(held)
  const total = (amount: Big) => productAmount(amount.plus(beside), strength.count, unit)
  return measureDose({
    exact,
    count: strength.count,
    unit,
    tools: request.tools,
    against: isSame ? exact : productNeeded(fillTo, context),
    isAllowed: (amount) => staysWithin(total(amount), fresh, context),
    isEnough: (amount) => reachesLowest(total(amount), fresh, context),
    way: basis.maxima && basis.maxima.length > 0 ? 'nearest' : 'down',
  })
}

function reachesLowest(
  product: ReturnType<typeof productAmount>,
  mix: Volume,
  { basis }: MixContext,
): boolean {
  if (!basis.lowest) return true
  const proven = proveRate(product, mix, basis.lowest, basis.figures)
  return proven.ok && compareNumbers(proven.value.value, basis.lowest.value) >= 0
}

function holdDose(plan: FillPlan, dosed: Exclude<Dosed, { kind: 'measured' }>): NoMix {
  const { strength, unit } = plan.context
  const tool =
    dosed.kind === 'too-coarse' ? dosed.dose.tool : dosed.kind === 'below-tool' ? dosed.tool : undefined
  const proposals = tool ? waysOut(plan, tool) : []
  return describeHold(dosed, { of: 'product', exact: plan.exact, count: strength.count, unit, proposals })
}

function waysOut(plan: FillPlan, tool: FittedTool): readonly Proposal[] {
  const { context, request, fillTo, inTank, exact } = plan
  const isOther = inTank?.kind === 'other'
  return proposeWaysOut({
    count: context.strength.count,
    against: isOther ? productNeeded(fillTo, context) : exact,
    tool,
    strength: context.strength.number,
    fill: fillTo,
    alreadyIn: inTank?.volume,
    capacity: request.capacity,
    mark: request.mark,
    tryFill: isOther ? undefined : (fill) => doseFill(plan, fill),
  })
}

/**
 * The leftover is too strong for this filling: nothing is added, and water brings it down to the strength asked for
 * (F25). What does not fit the tank is held.
 */
function dilute(plan: Undosed): MixOutcome {
  const { context, request, held } = plan
  const { number } = context.strength
  const exactFill = quantity(convertNumber(held.div(number), 'mL', request.fill.unit), request.fill.unit)
  const capacity = request.capacity ?? request.fill
  if (!hasRoomFor(exactFill, capacity)) return notFitDiluted(plan, exactFill, capacity)
  const fillTo = toMark(exactFill, request.mark, capacity, 'up')
  return describeMix({ ...plan, fillTo, exact: held.times(0), dose: undefined })
}

function notFitDiluted({ inTank, request }: Undosed, fillTo: Volume, capacity: Volume): NoMix {
  const proposals = inTank ? [splitLeftover(inTank.volume, fillTo, capacity, request.mark)] : []
  return { ...notFit(fillTo, capacity, true), proposals }
}

/** So much of the leftover makes one full tank of the right strength; the rest waits for the next one. */
function splitLeftover(volume: Volume, fillTo: Volume, capacity: Volume, mark: Volume | undefined): Proposal {
  const exact = scale(volume, ratioOf(capacity, fillTo))
  const keep = toMark(exact, mark, undefined, 'down')
  return { kind: 'split-leftover', keep, fillTo: capacity, setAside: subtract(volume, keep) }
}

function notFit(fillTo: Volume, capacity: Volume, addNone: boolean): Extract<NoMix, { outcome: 'not-fit' }> {
  const reason = step(addNone ? 'mix.not-fit.diluted' : 'mix.not-fit.fill', { fill: fillTo, capacity })
  return { outcome: 'not-fit', fillTo, capacity, addNone, proposals: [], reason }
}
