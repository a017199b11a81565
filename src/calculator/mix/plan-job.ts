import { big, compareNumbers, settle, sumOf } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import {
  amountIn,
  compareQuantities,
  convert,
  isZero,
  quantity,
  scale,
  subtract,
} from '#src/quantity/quantity.ts'
import { sayOutput } from '#src/quantity/said.ts'
import type { AmountUnit } from '#src/quantity/units.ts'
import type { Step } from '../worked.ts'
import { step } from '../worked.ts'
import { mixProblem, openMix } from './context.ts'
import { mixFor } from './ground.ts'
import { toMark } from './marks.ts'
import type { Job, JobOutcome, Load, Mix, MixOutcome, NoMix, Proposal } from './outcome.ts'
import { planFill } from './plan-fill.ts'
import type { FillRequest, JobRequest, Volume } from './request.ts'

type Name = 'first' | 'full' | 'last'

interface Planned {
  readonly name: Name
  readonly count: number
  readonly result: MixOutcome
}

/**
 * A whole job (F23): full tanks while the ground needs them, then one that is smaller. Only the last filling is
 * rounded to a mark, upwards, so that the ground gets covered; product follows each filling.
 */
export function planJob(request: JobRequest): JobOutcome {
  const { output } = request.figures
  if (!output) return mixProblem({ kind: 'needs', need: 'output' })
  if (big(request.ground.value).lte(0) || big(request.capacity.value).lte(0))
    return mixProblem({ kind: 'nothing-asked' })
  const needed = mixFor(request.ground, output, request.capacity.unit)
  const opened = openMix(request, needed)
  if (!opened.ok) return opened.error
  const planned = planLoads(request, needed)
  const failed = planned.find(({ result }) => result.outcome !== 'answer')
  if (failed) return holdJob(request, needed, planned, failed)
  const groups = planned.flatMap(({ count, result }) =>
    result.outcome === 'answer' ? [{ count, mix: result.mix }] : [],
  )
  return { outcome: 'answer', job: describeJob(request, needed, groups, opened.value.unit) }
}

function planLoads(request: JobRequest, needed: Volume): readonly Planned[] {
  const { capacity, inTank } = request
  if (!inTank || isZero(inTank.volume)) return planFresh(request, needed)
  const only = compareQuantities(needed, capacity) <= 0
  const result = planFill(fillOf(request, firstFill(request, needed), true))
  const first: Planned = { name: only ? 'last' : 'first', count: 1, result }
  if (result.outcome !== 'answer') return [first]
  const rest = subtract(needed, result.mix.fillTo)
  return compareNumbers(rest.value, 0) <= 0
    ? [{ ...first, name: 'last' }]
    : [first, ...planFresh(request, rest)]
}

/** The first filling with mix in the tank: never less than what is there already. */
function firstFill({ capacity, mark, inTank }: JobRequest, needed: Volume): Volume {
  if (compareQuantities(needed, capacity) >= 0) return capacity
  const marked = toMark(needed, mark, capacity, 'up')
  return inTank && compareQuantities(inTank.volume, marked) > 0
    ? convert(inTank.volume, capacity.unit)
    : marked
}

function planFresh(request: JobRequest, needed: Volume): readonly Planned[] {
  const { capacity, mark } = request
  const full = settle(big(needed.value).div(capacity.value)).floor()
  const rest = subtract(needed, scale(capacity, full))
  const planned: Planned[] = []
  if (full.gt(0))
    planned.push({ name: 'full', count: full.toNumber(), result: planFill(fillOf(request, capacity, false)) })
  if (compareNumbers(big(rest.value).div(capacity.value), 0) > 0) {
    const last = toMark(rest, mark, capacity, 'up')
    planned.push({ name: 'last', count: 1, result: planFill(fillOf(request, last, false)) })
  }
  return planned
}

function fillOf(request: JobRequest, fill: Volume, isFirst: boolean): FillRequest {
  const { ground: _, inTank, ...basis } = request
  return { ...basis, fill, ...(isFirst && inTank ? { inTank } : {}) }
}

function holdJob(
  request: JobRequest,
  needed: Volume,
  planned: readonly Planned[],
  failed: Planned,
): JobOutcome {
  const held = failed.result as NoMix
  const loads = planned.reduce((sum, { count }) => sum + count, 0)
  const isDose = held.outcome === 'too-coarse' || held.outcome === 'below-tool'
  if (!isDose || failed.name !== 'last' || loads < 2 || request.inTank) return { ...held, load: failed.name }
  return { ...held, load: failed.name, proposals: [...evenLoads(request, needed, loads), ...held.proposals] }
}

/** The same number of loads, all alike, where the last one alone is too small to measure. */
function evenLoads(request: JobRequest, needed: Volume, loads: number): readonly Proposal[] {
  const fillTo = toMark(scale(needed, big(1).div(loads)), request.mark, request.capacity, 'up')
  const trial = planFill(fillOf(request, fillTo, false))
  return trial.outcome === 'answer' ? [{ kind: 'even-loads', loads, fillTo }] : []
}

function describeJob(request: JobRequest, neededMix: Volume, groups: readonly Load[], unit: AmountUnit): Job {
  const [first, ...others] = groups
  if (first === undefined) throw new RangeError('Cannot describe a job without loads')
  const last = others.at(-1) ?? first
  const loads = groups.reduce((sum, { count }) => sum + count, 0)
  const totalMix = quantity(
    total(groups, ({ fillTo }) => amountIn(fillTo, neededMix.unit)),
    neededMix.unit,
  )
  const leftover = compareQuantities(totalMix, neededMix) > 0 ? subtract(totalMix, neededMix) : undefined
  return {
    totalMix,
    neededMix,
    totalConcentrate: sumUp(groups, unit, (mix) => mix.concentrate?.inRateUnit),
    totalExact: sumUp(groups, unit, (mix) => mix.concentrate?.exact),
    loads,
    groups: [first, ...others],
    lastLoad: last.mix.fillTo,
    lastMix: last.mix,
    leftover,
    working: jobSteps(request, neededMix, loads, last.mix),
    notes: leftover ? [step('mix.note.leftover', { leftover, needed: neededMix })] : [],
  }
}

function total(groups: readonly Load[], of: (mix: Mix) => ReturnType<typeof amountIn>) {
  return sumOf(groups.map(({ count, mix }) => of(mix).times(count)))
}

function sumUp(
  groups: readonly Load[],
  unit: AmountUnit,
  of: (mix: Mix) => Quantity | undefined,
): Quantity<AmountUnit> {
  const amount = total(groups, (mix) => {
    const one = of(mix)
    return one ? amountIn(one, unit) : big(0)
  })
  return quantity(amount, unit)
}

function jobSteps(
  { ground, figures, capacity }: JobRequest,
  needed: Volume,
  loads: number,
  last: Mix,
): readonly Step[] {
  const output = figures.output
    ? [step('mix.step.job', { ground, output: sayOutput(figures.output), needed })]
    : []
  return [...output, step('mix.step.loads', { needed, capacity, loads, last: last.fillTo })]
}
