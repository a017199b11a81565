import type { Big } from '#src/quantity/big.ts'
import { decimalText } from '#src/quantity/big.ts'
import type { AmountUnit } from '#src/quantity/units.ts'
import type { Count } from '../rate/measure.ts'
import type { Step } from '../worked.ts'
import { step } from '../worked.ts'
import type { Dosed } from './dose.ts'
import type { NoMix, Proposal } from './outcome.ts'
import { productAmount } from './strength.ts'

interface HoldBasis {
  /** What could not be measured: `product`, or the name of an adjuvant. */
  readonly of: string
  readonly exact: Big
  readonly count: Count
  readonly unit: AmountUnit
  readonly proposals: readonly Proposal[]
}

/** Why an amount cannot be measured, told in the unit of the tool. */
export function describeHold(dosed: Exclude<Dosed, { kind: 'measured' }>, basis: HoldBasis): NoMix {
  const { of, count, proposals } = basis
  if (dosed.kind === 'no-tool') {
    const exact = productAmount(basis.exact, count, basis.unit)
    return {
      outcome: 'no-tool',
      of,
      exact,
      reason: step(`mix.no-tool.${count === 'g' ? 'dry' : 'liquid'}`, { exact }),
    }
  }
  if (dosed.kind === 'below-tool') {
    const { tool } = dosed
    const exact = productAmount(dosed.exact, count, tool.unit)
    const smallest = productAmount(tool.step, count, tool.unit)
    const reason = step('mix.below-tool', { exact, step: smallest, tool: tool.tool.name })
    return { outcome: 'below-tool', of, exact, step: smallest, proposals, reason }
  }
  const { dose } = dosed
  const unit = dose.tool?.unit ?? basis.unit
  const exact = productAmount(dose.exact, count, unit)
  const measured = productAmount(dose.measured, count, unit)
  const percent = decimalText(dose.shift.times(100).toSignificantDigits(2))
  const reason = step('mix.too-coarse.tool', { exact, measured, percent, tool: dose.tool?.tool.name ?? '' })
  return { outcome: 'too-coarse', of, exact, measured, shift: decimalText(dose.shift), proposals, reason }
}

/** A way out as a sentence. */
export function proposalStep(proposal: Proposal): Step {
  switch (proposal.kind) {
    case 'finer-tool':
      return step('mix.propose.finer-tool', { step: proposal.step })
    case 'batch':
      return step('mix.propose.batch', { fill: proposal.fillTo, concentrate: proposal.concentrate })
    case 'even-loads':
      return step('mix.propose.even-loads', { loads: proposal.loads, fill: proposal.fillTo })
    case 'split-leftover':
      return step('mix.propose.split-leftover', {
        keep: proposal.keep,
        fill: proposal.fillTo,
        setAside: proposal.setAside,
      })
  }
}
