import type { Big } from '#src/quantity/big.ts'
import { big, compareNumbers } from '#src/quantity/big.ts'
import { convertNumber } from '#src/quantity/quantity.ts'
import type { RoundingWay } from '#src/quantity/round.ts'
import { countSteps, roundToDigits } from '#src/quantity/round.ts'
import type { AmountUnit } from '#src/quantity/units.ts'
import type { Count } from '../rate/measure.ts'
import type { Tool } from './request.ts'
import type { FittedTool } from './tool.ts'
import { rankTools } from './tool.ts'

/** Rounding may move the rate by so much before the answer is held back. Common practice, no source. */
export const MOST_SHIFT = '0.05'

/** Digits that are told where nothing is known about the tool. */
const DIGITS_WITHOUT_TOOL = 4

export interface DoseRequest {
  /** The exact amount in g or mL; above zero. */
  readonly exact: Big
  readonly count: Count
  /** The unit in which an amount without a tool is rounded. */
  readonly unit: AmountUnit
  readonly tools: readonly Tool[] | undefined
  /** What a shift is held against: the amount itself, or all the product in the tank. */
  readonly against: Big
  /** May this amount go in, by every limit? */
  readonly isAllowed: (amount: Big) => boolean
  /** Is this amount enough for the least that the label asks for? */
  readonly isEnough: (amount: Big) => boolean
  /** `down` where the rate asked for is its own ceiling. */
  readonly way: 'down' | 'nearest'
}

export interface Dose {
  readonly exact: Big
  readonly measured: Big
  readonly tool: FittedTool | undefined
  /** How far measuring moves the amount, as a share. */
  readonly shift: Big
}

export type Dosed =
  | { readonly kind: 'measured'; readonly dose: Dose }
  | { readonly kind: 'too-coarse'; readonly dose: Dose }
  | { readonly kind: 'below-tool'; readonly exact: Big; readonly tool: FittedTool }
  /** There are tools, but none for this kind of product. */
  | { readonly kind: 'no-tool' }

/** Rounds an amount to what can be measured: with the best tool that does it within {@link MOST_SHIFT}. */
export function measureDose(request: DoseRequest): Dosed {
  if (request.tools === undefined || request.tools.length === 0) return withoutTool(request)
  const ranked = rankTools(request.tools, request.count, request.exact)
  const tried = ranked.map((tool) => withTool(request, tool))
  return tried.find(({ kind }) => kind === 'measured') ?? leastBad(tried) ?? { kind: 'no-tool' }
}

function leastBad(tried: readonly Dosed[]): Dosed | undefined {
  let best: Dosed | undefined
  for (const one of tried) {
    if (
      best === undefined ||
      (one.kind === 'too-coarse' && (best.kind !== 'too-coarse' || one.dose.shift.lt(best.dose.shift)))
    )
      best = one
  }
  return best
}

function withoutTool(request: DoseRequest): Dosed {
  const inUnit = convertNumber(request.exact, request.count, request.unit)
  const round = (way: RoundingWay) =>
    convertNumber(roundToDigits(inUnit, DIGITS_WITHOUT_TOOL, way), request.unit, request.count)
  return { kind: 'measured', dose: pick(request, round, undefined) }
}

function withTool(request: DoseRequest, tool: FittedTool): Dosed {
  if (compareNumbers(request.exact, tool.step) < 0) return { kind: 'below-tool', exact: request.exact, tool }
  const round = (way: RoundingWay) => countSteps(request.exact, tool.step, way).times(tool.step)
  const dose = pick(request, round, tool)
  return { kind: compareNumbers(dose.shift, MOST_SHIFT) > 0 ? 'too-coarse' : 'measured', dose }
}

/** The first rounding that is allowed and enough; else the first allowed; else down, which never adds to a rate. */
function pick(request: DoseRequest, round: (way: RoundingWay) => Big, tool: FittedTool | undefined): Dose {
  const ways: readonly RoundingWay[] = request.way === 'down' ? ['down'] : ['nearest', 'down', 'up']
  const amounts = ways.map(round)
  const allowed = amounts.filter(request.isAllowed)
  const measured = allowed.find(request.isEnough) ?? allowed[0] ?? round('down')
  const shift = measured.minus(request.exact).abs().div(request.against)
  return { exact: request.exact, measured, tool, shift }
}

const NICE = ['5', '2', '1'] as const

/** The coarsest round step, in the unit given, that keeps any rounding of this amount within {@link MOST_SHIFT}. */
export function stepThatServes(against: Big, count: Count, unit: AmountUnit): Big {
  const most = convertNumber(against.times(MOST_SHIFT), count, unit)
  const decade = big(10).pow(most.e)
  const digit = NICE.find((nice) => compareNumbers(decade.times(nice), most) <= 0) ?? '1'
  return decade.times(digit)
}
