import { big, compareNumbers, decimalText } from '#src/quantity/big.ts'
import { amountIn, quantity, ratioOf } from '#src/quantity/quantity.ts'
import type { Output } from '#src/quantity/rate.ts'
import { sayOutput } from '#src/quantity/said.ts'
import type { Calculated, Finding } from '../worked.ts'
import { blocked, finding, step, worked } from '../worked.ts'
import type { Flow, Pressure } from './measured.ts'
import { doubts } from './measured.ts'
import { convertOutput } from './output.ts'

/**
 * Flow of the same tip at another pressure (F10): it goes with the square root, so twice the pressure gives only
 * 41 percent more. Oklahoma State University Extension, calibrating a low-pressure ground sprayer.
 */
export function flowAtPressure(flow: Flow, from: Pressure, to: Pressure): Calculated<Flow> {
  const problems = [...doubts({ flow, pressure: from }), ...doubts({ pressure: to })]
  if (problems.length > 0) return blocked(...problems)
  const times = amountIn(to, from.unit).div(big(from.value)).sqrt()
  const result = quantity(big(flow.value).times(times), flow.unit)
  return worked(result, [step('calibrate.pressure-flow', { from, to, flow, result })], farApart(from, to))
}

/** The pressure at which the same tip gives another flow (F10): it goes with the square. */
export function pressureForFlow(pressure: Pressure, from: Flow, to: Flow): Calculated<Pressure> {
  const problems = [...doubts({ flow: from, pressure }), ...doubts({ flow: to })]
  if (problems.length > 0) return blocked(...problems)
  const result = quantity(ratioOf(to, from).pow(2).times(big(pressure.value)), pressure.unit)
  const beyond = doubts({ pressure: result })
  if (beyond.length > 0) return blocked(...beyond)
  const working = [step('calibrate.flow-pressure', { from, to, pressure, result })]
  return worked(result, working, farApart(pressure, result))
}

/** Output of the same tips at another pressure and the same speed: it goes as the flow does (F10). */
export function outputAtPressure(output: Output, from: Pressure, to: Pressure): Calculated<Output> {
  const problems = [...doubts({ pressure: from }), ...doubts({ pressure: to })]
  if (problems.length > 0) return blocked(...problems)
  const times = amountIn(to, from.unit).div(big(from.value)).sqrt()
  const result: Output = { ...output, value: decimalText(big(output.value).times(times)) }
  const said = { from, to, output: sayOutput(output), result: sayOutput(result) }
  return worked(result, [step('calibrate.pressure-output', said)], farApart(from, to))
}

/** The pressure at which the same tips at the same speed give another output (F10): it goes with the square. */
export function pressureForOutput(pressure: Pressure, from: Output, to: Output): Calculated<Pressure> {
  const problems = doubts({ pressure })
  if (problems.length > 0) return blocked(...problems)
  const wanted = convertOutput(to, { unit: from.unit, per: from.per })
  const times = big(wanted.value).div(big(from.value)).pow(2)
  const result = quantity(times.times(big(pressure.value)), pressure.unit)
  const beyond = doubts({ pressure: result })
  if (beyond.length > 0) return blocked(...beyond)
  const said = { from: sayOutput(from), to: sayOutput(to), pressure, result }
  return worked(result, [step('calibrate.output-pressure', said)], farApart(pressure, result))
}

/** Beyond twice or half the pressure the drops change so much that another tip is the better way. */
function farApart(from: Pressure, to: Pressure): Finding[] {
  const times = ratioOf(to, from)
  const far = compareNumbers(times, 2) > 0 || compareNumbers(times, '0.5') < 0
  return far ? [finding('heads-up', 'calibrate.pressure-far', { from, to })] : []
}
