import { compareNumbers } from '#src/quantity/big.ts'
import { compareQuantities } from '#src/quantity/quantity.ts'
import { sayRate } from '#src/quantity/said.ts'
import { convertRate } from '../rate/convert.ts'
import type { Step } from '../worked.ts'
import { step } from '../worked.ts'
import { mixFor } from './ground.ts'
import type { Mix } from './outcome.ts'
import type { FillPlan } from './plan-fill.ts'

type Described = Omit<Mix, 'working' | 'notes'>

/** What to mind about an answer. */
export function notesOf(plan: FillPlan, mix: Described): readonly Step[] {
  return [
    ...addNone(plan, mix),
    ...belowLowest(plan, mix),
    ...printedPairs(mix),
    ...severalFillings(mix),
    ...groundNotes(plan, mix),
    ...trapNote(mix),
  ]
}

function addNone({ inTank, fillTo }: FillPlan, { concentrate }: Described): readonly Step[] {
  if (concentrate || !inTank) return []
  const isFull = compareQuantities(fillTo, inTank.volume) === 0
  return [isFull ? step('mix.note.ready', { volume: fillTo }) : step('mix.note.add-none', { fill: fillTo })]
}

function belowLowest({ request }: FillPlan, { rateApplied }: Described): readonly Step[] {
  const { lowest, figures } = request
  if (!lowest) return []
  const held = convertRate(rateApplied, lowest, figures)
  if (!held.ok || compareNumbers(held.value.rate.value, lowest.value) >= 0) return []
  return [step('mix.note.below-lowest', { rate: sayRate(rateApplied), lowest: sayRate(lowest) })]
}

/** Printed numbers of one limit that differ only by rounding are shown, never held against anybody. */
function printedPairs({ ceilings }: Described): readonly Step[] {
  return ceilings.flatMap((check) => {
    if (check.verdict === 'unknown') return []
    const passed = check.lines.filter((line) => line.agreement === 'rounding' && line.isAbove)
    return passed.map(({ printed }) =>
      step('mix.note.printed-pair', { decides: sayRate(check.decides), other: sayRate(printed) }),
    )
  })
}

function severalFillings({ concentrate }: Described): readonly Step[] {
  if (!concentrate || concentrate.fillings < 2 || !concentrate.tool) return []
  return [step('mix.note.fillings', { tool: concentrate.tool.name, count: concentrate.fillings })]
}

function groundNotes({ request, fillTo }: FillPlan, { leftover, areaCovered }: Described): readonly Step[] {
  const { ground, figures } = request
  if (!ground || !figures.output) return []
  const needed = mixFor(ground, figures.output, fillTo.unit)
  if (leftover) return [step('mix.note.leftover', { leftover, needed })]
  const isShort = compareQuantities(needed, fillTo) > 0 && areaCovered !== undefined
  return isShort ? [step('mix.note.short', { area: areaCovered, ground, needed })] : []
}

function trapNote({ trap }: Described): readonly Step[] {
  return trap
    ? [step('mix.note.output-trap', { yours: sayRate(trap.yours), usual: sayRate(trap.usual) })]
    : []
}
