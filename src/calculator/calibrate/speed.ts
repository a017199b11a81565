import { amountIn, quantity } from '#src/quantity/quantity.ts'
import type { UnitOf } from '#src/quantity/units.ts'
import type { Calculated } from '../worked.ts'
import { blocked, step, worked } from '../worked.ts'
import type { Flow, Length, Speed, Time, Volume } from './measured.ts'
import { doubts } from './measured.ts'
import type { Runs } from './runs.ts'
import { averageRuns, tooVaried } from './runs.ts'

export interface SpeedRun {
  readonly distance: Length
  readonly time: Time
}

export interface MeasuredSpeed {
  readonly speed: Speed
  readonly runs: Runs
}

/**
 * Speed from measured runs (F8: 88 ft a minute is 1 mph). Several runs are averaged by their speeds; the result keeps
 * how far apart they were, and runs too far apart come back as a hold.
 */
export function measureSpeed(
  runs: readonly SpeedRun[],
  options: { readonly unit?: UnitOf<'speed'>; readonly spreadLimitPercent?: number | string } = {},
): Calculated<MeasuredSpeed> {
  if (runs.length === 0) throw new RangeError('Cannot tell a speed from no runs')
  const problems = runs.flatMap((run) => doubts({ distance: run.distance, time: run.time }))
  if (problems.length > 0) return blocked(...problems)
  const unit = options.unit ?? 'mph'
  const speeds = runs.map((run) => speedOf(run, unit))
  const all = averageRuns(speeds.map((speed) => speed.value))
  const speed = quantity(all.mean, unit)
  const absurd = doubts({ speed })
  if (absurd.length > 0) return blocked(...absurd)
  const steps = runs.map((run, index) => step('calibrate.run', { ...run, speed: speeds[index] ?? speed }))
  const mean = runs.length > 1 ? [step('calibrate.mean-of-runs', { runs: runs.length, mean: speed })] : []
  return worked({ speed, runs: all }, [...steps, ...mean], tooVaried(all, options.spreadLimitPercent))
}

/** One run's speed, exactly. */
export function speedOf(run: SpeedRun, unit: UnitOf<'speed'>): Speed {
  const feetPerMinute = amountIn(run.distance, 'ft').div(amountIn(run.time, 'min'))
  return quantity(amountIn(quantity(feetPerMinute, 'ft/min'), unit), unit)
}

/** What a nozzle gives a minute, from a catch of any length of time. */
export function flowOf(caught: Volume, time: Time): Flow {
  return quantity(amountIn(caught, 'gal').div(amountIn(time, 'min')), 'gal/min')
}
