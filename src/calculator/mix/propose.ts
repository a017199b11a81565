import type { Big } from '#src/quantity/big.ts'
import { big, compareNumbers } from '#src/quantity/big.ts'
import { amountIn, compareQuantities, convertNumber, quantity } from '#src/quantity/quantity.ts'
import type { RoundingWay } from '#src/quantity/round.ts'
import { roundToStep } from '#src/quantity/round.ts'
import type { Count } from '../rate/measure.ts'
import type { Dosed } from './dose.ts'
import { stepThatServes } from './dose.ts'
import { hasRoomFor, toMark } from './marks.ts'
import type { Proposal } from './outcome.ts'
import type { Volume } from './request.ts'
import { productAmount } from './strength.ts'
import type { FittedTool } from './tool.ts'

export interface ProposalBasis {
  readonly count: Count
  /** What a shift is held against, in g or mL. */
  readonly against: Big
  /** The tool that was too coarse. */
  readonly tool: FittedTool
  /** Product in one mL of mix. */
  readonly strength: Big
  readonly fill: Volume
  readonly alreadyIn: Volume | undefined
  readonly capacity: Volume | undefined
  readonly mark: Volume | undefined
  /** Doses a filling of another size; undefined where another size is no way out. */
  readonly tryFill: ((fill: Volume) => Dosed) | undefined
}

/** Without marks a proposed filling is told to so many decimals of its unit. */
const LOOSE_STEP = '0.01'
/** Whole numbers of steps that are tried beyond the one next to the exact amount. */
const STEPS_AHEAD = 6

/** What helps when a tool is too coarse: a finer one, or a filling that comes out at whole steps of this one. */
export function proposeWaysOut(basis: ProposalBasis): readonly Proposal[] {
  const { tool, count, against } = basis
  const serves = stepThatServes(against, count, tool.unit)
  const finer: Proposal = { kind: 'finer-tool', step: quantity(serves, tool.unit) }
  const batch = proposeBatch(basis)
  return compareNumbers(convertNumber(serves, tool.unit, count), tool.step) < 0 ? [finer, ...batch] : batch
}

function proposeBatch(basis: ProposalBasis): readonly Proposal[] {
  const { tryFill, fill, count, tool } = basis
  if (!tryFill) return []
  const good = candidateFills(basis).flatMap((candidate) => {
    const dosed = tryFill(candidate)
    return dosed.kind === 'measured' && dosed.dose.tool?.tool === tool.tool
      ? [{ candidate, dose: dosed.dose }]
      : []
  })
  const away = (volume: Volume) => big(amountIn(volume, fill.unit)).minus(fill.value).abs()
  const [best] = good.sort((a, b) => compareNumbers(away(a.candidate), away(b.candidate)))
  if (!best) return []
  return [
    {
      kind: 'batch',
      fillTo: best.candidate,
      concentrate: productAmount(best.dose.measured, count, tool.unit),
    },
  ]
}

/** Fillings whose product is close to a whole number of steps, on marks and with room in the tank. */
function candidateFills(basis: ProposalBasis): readonly Volume[] {
  const { tool, strength, fill, alreadyIn, mark, capacity } = basis
  const base = alreadyIn ? amountIn(alreadyIn, 'mL') : big(0)
  const fresh = amountIn(fill, 'mL').minus(base)
  const steps = fresh.times(strength).div(tool.step).floor()
  const fills: Volume[] = []
  for (let ahead = 0; ahead <= STEPS_AHEAD; ahead++) {
    const count = steps.plus(ahead)
    if (count.lte(0)) continue
    const exact = quantity(
      convertNumber(base.plus(count.times(tool.step).div(strength)), 'mL', fill.unit),
      fill.unit,
    )
    const ways: readonly RoundingWay[] = mark ? ['down', 'up'] : ['up']
    for (const way of ways) fills.push(mark ? toMark(exact, mark, undefined, way) : loosely(exact, way))
  }
  const isNew = (one: Volume) => !alreadyIn || compareQuantities(one, alreadyIn) > 0
  return fills.filter((one) => hasRoomFor(one, capacity) && isNew(one))
}

function loosely(fill: Volume, way: RoundingWay): Volume {
  return quantity(roundToStep(fill.value, LOOSE_STEP, way), fill.unit)
}
