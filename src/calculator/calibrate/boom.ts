import type { Big } from '#src/quantity/big.ts'
import { big } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn, convert, quantity } from '#src/quantity/quantity.ts'
import type { Output } from '#src/quantity/rate.ts'
import { sayOutput } from '#src/quantity/said.ts'
import type { UnitOf } from '#src/quantity/units.ts'
import type { Calculated, Finding, Step } from '../worked.ts'
import { blocked, finding, step, worked } from '../worked.ts'
import type { Flow, Length, Speed } from './measured.ts'
import { doubts } from './measured.ts'
import type { OutputBand, OutputForm } from './output.ts'
import { convertOutput, fromGallonsPerAcre, gallonsPerAcre, outsideBand, PER_ACRE } from './output.ts'

/** 5,940 = 60 × 12 × 43,560 ÷ 5,280 exactly: gallons per acre from gallons a minute, miles an hour and inches (F5). */
export const BOOM_CONSTANT = 5940

/**
 * Which width belongs to the flow. One nozzle's flow goes with the spacing, the whole boom's flow with the whole
 * swath: mixing the two is wrong by the number of nozzles.
 */
export type Width =
  | { readonly of: 'nozzle'; readonly spacing: Length }
  | { readonly of: 'boom'; readonly swath: Length }

/** All but one of flow, speed and output; the width is always known. */
export interface BoomGiven {
  readonly width: Width
  readonly flow?: Flow
  readonly speed?: Speed
  readonly output?: Output
}

export interface BoomOptions {
  /** Units of the result. @default gallons per acre, gallons a minute, miles an hour */
  readonly form?: OutputForm
  readonly flowUnit?: UnitOf<'flow'>
  readonly speedUnit?: UnitOf<'speed'>
  readonly band?: OutputBand
}

export interface Boom {
  readonly solved: 'output' | 'flow' | 'speed'
  readonly output: Output
  readonly flow: Flow
  readonly speed: Speed
  readonly width: Width
}

export function widthOf(width: Width): Length {
  return width.of === 'nozzle' ? width.spacing : width.swath
}

/** Whole swath of a boom (F9). */
export function boomSwath(nozzles: number, spacing: Length): Quantity<'ft'> {
  return quantity(amountIn(spacing, 'ft').times(nozzles), 'ft')
}

/** F5, F6 and F7: whichever of output, flow and speed is not given, from the other two and the width. */
export function solveBoom(given: BoomGiven, options: BoomOptions = {}): Calculated<Boom> {
  const problems = boomProblems(given)
  if (problems.length > 0) return blocked(...problems)
  const boom = fillIn(given, options)
  return worked(boom, explain(boom), outsideBand(boom.output, options.band))
}

/** The formula with figures in its own units, then the result in the units asked for if those differ. */
function explain(boom: Boom): Step[] {
  const solved = boom[boom.solved]
  const figures = {
    output: convertOutput(boom.output, PER_ACRE),
    flow: convert(boom.flow, 'gal/min'),
    speed: convert(boom.speed, 'mph'),
  }
  const own = figures[boom.solved]
  const formula = step(`calibrate.boom-${boom.solved}`, {
    ...figures,
    output: sayOutput(figures.output),
    width: convert(widthOf(boom.width), 'in'),
  })
  if (own.unit === solved.unit && !('per' in solved && solved.per.unit !== 'acre')) return [formula]
  const told = (one: Flow | Speed | Output) => ('per' in one ? sayOutput(one) : one)
  return [formula, step('calibrate.told-as', { from: told(own), to: told(solved) })]
}

function boomProblems(given: BoomGiven): Finding[] {
  const missing = (['flow', 'speed', 'output'] as const).filter((name) => given[name] === undefined)
  if (missing.length !== 1) {
    const names = missing.length === 0 ? (['flow', 'speed', 'output'] as const) : missing
    const all = names.map((name) => ({ say: `calibrate.what.${name}` }))
    const id = missing.length === 0 ? 'calibrate.nothing-to-solve' : 'calibrate.two-of-three'
    return [finding('question', id, { missing: { all, join: missing.length === 0 ? 'and' : 'or' } })]
  }
  const found = doubts({
    flow: given.flow,
    speed: given.speed,
    [given.width.of === 'nozzle' ? 'spacing' : 'swath']: widthOf(given.width),
  })
  const output = given.output === undefined || big(given.output.value).gt(0) ? [] : [noOutput(given.output)]
  return [...found, ...output]
}

function noOutput(output: Output): Finding {
  const figures = { what: { say: 'calibrate.what.output' }, given: sayOutput(output) }
  return finding('refusal', 'calibrate.not-above-zero', figures)
}

function fillIn(given: BoomGiven, options: BoomOptions): Boom {
  const inches = amountIn(widthOf(given.width), 'in')
  const gpm = given.flow === undefined ? null : amountIn(given.flow, 'gal/min')
  const mph = given.speed === undefined ? null : amountIn(given.speed, 'mph')
  const gpa = given.output === undefined ? null : gallonsPerAcre(given.output)
  const { width } = given
  if (gpm === null || given.flow === undefined) {
    const flow = known(gpa).times(known(mph)).times(inches).div(BOOM_CONSTANT)
    const unit = options.flowUnit ?? 'gal/min'
    const told = quantity(amountIn(quantity(flow, 'gal/min'), unit), unit)
    return { solved: 'flow', flow: told, speed: known(given.speed), output: known(given.output), width }
  }
  if (mph === null || given.speed === undefined) {
    const speed = gpm.times(BOOM_CONSTANT).div(known(gpa).times(inches))
    const unit = options.speedUnit ?? 'mph'
    const told = quantity(amountIn(quantity(speed, 'mph'), unit), unit)
    return { solved: 'speed', speed: told, flow: given.flow, output: known(given.output), width }
  }
  const result = gpm.times(BOOM_CONSTANT).div(mph.times(inches))
  const output = fromGallonsPerAcre(result, options.form ?? PER_ACRE)
  return { solved: 'output', output, flow: given.flow, speed: given.speed, width }
}

function known<T>(value: T | null | undefined): T {
  if (value === null || value === undefined) throw new RangeError('Cannot solve with two figures missing')
  return value
}

/** The flow that every nozzle of a boom must give, from the whole boom's. */
export function flowPerNozzle(flow: Flow, nozzles: number): Flow {
  return quantity(big(flow.value).div(nozzles), flow.unit)
}

/**
 * The output at another speed with the same pressure and tips (F11): output times speed stays the same.
 * NC State Extension, calibration of turfgrass boom sprayers.
 */
export function outputAtSpeed(output: Output, from: Speed, to: Speed): Calculated<Output> {
  const problems = [...doubts({ speed: from }), ...doubts({ speed: to })]
  if (problems.length > 0) return blocked(...problems)
  const value: Big = big(output.value).times(amountIn(from, 'mph')).div(amountIn(to, 'mph'))
  const result = { ...output, ...quantity(value, output.unit) }
  return worked(result, [
    step('calibrate.speed-change', { from, to, before: sayOutput(output), after: sayOutput(result) }),
  ])
}

/** The speed that gives another output with the same pressure and tips (F11). */
export function speedForOutput(speed: Speed, from: Output, to: Output): Calculated<Speed> {
  const problems = doubts({ speed })
  if (!big(to.value).gt(0)) problems.push(noOutput(to))
  if (problems.length > 0) return blocked(...problems)
  const same = convertOutput(to, { unit: from.unit, per: from.per })
  const result = quantity(big(speed.value).times(big(from.value)).div(big(same.value)), speed.unit)
  return worked(result, [
    step('calibrate.speed-for', { from: sayOutput(from), to: sayOutput(to), speed, result }),
  ])
}
