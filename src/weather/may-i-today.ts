import type { Outcome } from '#src/conversation/reply.ts'
import { sayDroplet } from '#src/conversation/say-droplet.ts'
import type { Guidance } from './guidance.ts'
import { judgeDrying, readAir } from './humidity.ts'
import { judgeInversion } from './inversion.ts'
import { judgeRain } from './rain.ts'
import type { DaySettings, LabelDay, Readings } from './readings.ts'
import { usualDaySettings } from './readings.ts'
import type { Reason } from './reason.ts'
import { byLabel, reason, sortReasons, strictestOf } from './reason.ts'
import { judgeTemperature } from './temperature.ts'
import { judgeTurf } from './turf.ts'
import { judgeWind } from './wind.ts'

export interface DayVerdict {
  /** The strictest of the reasons; `answer` when nothing speaks against spraying. */
  readonly outcome: Outcome
  /** Every reason, the strictest first. */
  readonly reasons: readonly Reason[]
}

/**
 * May this product go out today? Its own label comes first; where the label is silent, what is published is held
 * against the day. Every reason is listed, and the strictest gives the outcome.
 */
export function mayIToday(
  label: LabelDay,
  readings: Readings,
  guidance: Guidance,
  settings: DaySettings = usualDaySettings,
): DayVerdict {
  const air = readAir(readings)
  const drying = air === null ? [] : 'id' in air ? [air] : judgeDrying(air, guidance)
  const reasons = sortReasons([
    ...judgeWind(label, readings, guidance, settings),
    ...judgeInversion(label, readings, settings),
    ...judgeTemperature(label, readings, guidance),
    ...drying,
    ...judgeDroplets(label, readings),
    ...judgeRain(label, readings, guidance),
    ...judgeTurf(label, readings, guidance),
  ])
  return { outcome: strictestOf(reasons), reasons }
}

function judgeDroplets({ droplets: rule }: LabelDay, { droplets }: Readings): Reason[] {
  if (rule === undefined) return []
  const classes = { all: rule.classes.map(sayDroplet), join: 'or' as const }
  if (droplets === undefined) return [reason('question', 'weather.droplets-unknown', { classes })]
  if (rule.classes.includes(droplets)) return []
  return [byLabel('refusal', 'weather.droplets-label', { droplets: sayDroplet(droplets), classes }, rule)]
}
