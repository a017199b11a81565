import { pace, pressure, speed } from './changing.ts'
import type { Run } from './found.ts'
import type { CalibrateOptions, Method } from './options.ts'
import { boom, boomless, hand, nozzles, ounce, refill, spots } from './spraying.ts'
import { pans, spreader } from './spreading.ts'

export const methods: Readonly<Record<Method, Run>> = {
  hand,
  refill,
  ounce,
  boom,
  boomless,
  nozzles,
  speed,
  pace,
  pressure,
  spreader,
  pans,
  spots,
}

/** The method that figures alone can only mean; none where several could. */
export function methodMeant(given: CalibrateOptions): Method | undefined {
  if (given.method !== undefined) return given.method
  if (given.spots) return 'spots'
  if (given.before || given.analysis) return 'spreader'
  if (given.used && given.ground) return 'hand'
  if (given.used && given.distance && given.width) return 'refill'
  if (given.distance && given.time) return 'speed'
  return given.flow && given.speed ? 'boom' : undefined
}
