import { compareQuantities } from '#src/quantity/quantity.ts'
import type { DaySettings, InversionSign, LabelDay, Readings, Sun } from './readings.ts'
import { inversionSigns } from './readings.ts'
import type { Reason } from './reason.ts'
import { byLabel, reason } from './reason.ts'

/** Seen in an inversion and hardly otherwise: one is enough. */
const plainSigns: readonly InversionSign[] = ['smoke-layer', 'ground-fog']

/** Inversions last most nights to about an hour after sunrise and begin up to two hours before sunset: GRDC 10.8 (2025). */
export const MORNING_MIN = 60
export const EVENING_MIN = 120

/** Signs that nobody has answered yet, in the order in which they are asked. */
export function openInversionQuestions(answers: Readings['inversion']): InversionSign[] {
  return inversionSigns.filter((sign) => answers?.[sign] === undefined)
}

export function isInversionHour(sun: Sun | undefined): boolean {
  const { sinceSunriseMin, untilSunsetMin } = sun ?? {}
  const morning = sinceSunriseMin !== undefined && sinceSunriseMin < MORNING_MIN
  const evening = untilSunsetMin !== undefined && untilSunsetMin < EVENING_MIN
  return morning || evening
}

/**
 * Is the air likely to lie in a layer in which fine drops hang and wander? A calm is a bad sign, not a good one: below
 * the calm limit the signs are asked for before there is an answer. Signs are clues, never proof.
 */
export function judgeInversion(label: LabelDay, readings: Readings, settings: DaySettings): Reason[] {
  const calm = readings.wind !== undefined && compareQuantities(readings.wind, settings.windCalm) < 0
  const seen = inversionSigns.filter((sign) => readings.inversion?.[sign] === true)
  const hour = isInversionHour(readings.sun)
  const clues = seen.length + (calm ? 1 : 0) + (hour ? 1 : 0)
  const likely = seen.some((sign) => plainSigns.includes(sign)) || (seen.length > 0 && clues >= 3)
  const figures = { signs: { all: seen.map((sign) => ({ say: `weather.sign.${sign}` })) } }
  if (likely) {
    if (label.inversion !== undefined)
      return [byLabel('refusal', 'weather.inversion-label', figures, label.inversion)]
    return [reason('hold', 'weather.inversion-likely', figures)]
  }
  const open = openInversionQuestions(readings.inversion)
  if ((calm || hour) && open.length > 0) {
    const questions = { all: open.map((sign) => ({ say: `weather.sign.${sign}` })), join: 'or' as const }
    return [reason('question', calm ? 'weather.calm-ask' : 'weather.hour-ask', { signs: questions })]
  }
  if (calm) return [reason('heads-up', 'weather.calm', { calm: settings.windCalm })]
  return hour || seen.length > 0 ? [reason('heads-up', 'weather.inversion-possible')] : []
}
