import type { Big } from '#src/quantity/big.ts'
import { big, compareNumbers } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn, quantity } from '#src/quantity/quantity.ts'
import type { AmountUnit } from '#src/quantity/units.ts'
import { dimensionOf } from '#src/quantity/units.ts'
import type { Count } from '../rate/measure.ts'
import type { Tool } from './request.ts'

/** A tool seen as steps of the product's own count: grams of a dry product, milliliters of a liquid. */
export interface FittedTool {
  readonly tool: Tool
  /** Size of one step in g or mL. */
  readonly step: Big
  /** The most at one time in g or mL. */
  readonly most: Big | undefined
  /** What the result is told in: the unit of the tool, or of the weight that a scoop holds. */
  readonly unit: AmountUnit
  /** The dry product is counted in level steps, not read off a scale. */
  readonly isScooped: boolean
}

const COUNTED = { g: 'mass', mL: 'volume' } as const

/** The tool as it serves a product counted in g or mL, or nothing where it does not serve. */
function fitTool(tool: Tool, count: Count): FittedTool | undefined {
  if (dimensionOf(tool.step.unit) === COUNTED[count] && (tool.kind === 'scale') === (count === 'g'))
    return fitted(tool, tool.step, tool.upTo, count, false)
  if (count !== 'g' || tool.kind === 'scale' || tool.holds === undefined) return undefined
  const { holds, upTo } = tool
  const steps = upTo === undefined ? undefined : amountIn(upTo, tool.step.unit).div(tool.step.value)
  const most = steps === undefined ? undefined : quantity(steps.times(holds.value), holds.unit)
  return fitted(tool, holds, most, count, true)
}

function fitted(
  tool: Tool,
  step: Quantity,
  most: Quantity | undefined,
  count: Count,
  isScooped: boolean,
): FittedTool {
  return {
    tool,
    step: amountIn(step, count),
    most: most === undefined ? undefined : amountIn(most, count),
    unit: step.unit as AmountUnit,
    isScooped,
  }
}

/** Can this tool's settings be used at all? A scale steps in weight, everything else in volume. */
export function isSoundTool(tool: Tool): boolean {
  const dimension = tool.kind === 'scale' ? 'mass' : 'volume'
  const fits = (one: Quantity | undefined, like: string) =>
    !one || (dimensionOf(one.unit) === like && big(one.value).gt(0))
  return fits(tool.step, dimension) && fits(tool.upTo, dimension) && fits(tool.holds, 'mass')
}

/**
 * The tools for an amount, the best first: weighing before scooping; of those that hold it at one time the finest,
 * then of the others the largest.
 */
export function rankTools(tools: readonly Tool[], count: Count, amount: Big): readonly FittedTool[] {
  const fitting = tools.map((tool) => fitTool(tool, count)).filter((tool) => tool !== undefined)
  return fitting.sort((a, b) => compareTools(a, b, amount))
}

function compareTools(a: FittedTool, b: FittedTool, amount: Big): number {
  if (a.isScooped !== b.isScooped) return a.isScooped ? 1 : -1
  const [aHolds, bHolds] = [holdsAtOnce(a, amount), holdsAtOnce(b, amount)]
  if (aHolds !== bHolds) return aHolds ? -1 : 1
  if (aHolds) return compareNumbers(a.step, b.step)
  return compareNumbers(b.most ?? 0, a.most ?? 0)
}

function holdsAtOnce({ most }: FittedTool, amount: Big): boolean {
  return most === undefined || compareNumbers(amount, most) <= 0
}

/** How often the tool has to be filled for an amount. */
export function countFillings({ most }: FittedTool, amount: Big): number {
  return most === undefined ? 1 : Math.max(1, amount.div(most).ceil().toNumber())
}
