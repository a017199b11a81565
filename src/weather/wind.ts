import { compareNumbers } from '#src/quantity/big.ts'
import { compareQuantities } from '#src/quantity/quantity.ts'
import type { Guidance } from './guidance.ts'
import type { DaySettings, LabelDay, Readings, Speed } from './readings.ts'
import type { Reason } from './reason.ts'
import { byLabel, reason } from './reason.ts'

const above = (a: Speed, b: Speed) => compareQuantities(a, b) > 0

/** From the lowest to the highest upper end that is published. */
export function ceilingSpread(guidance: Guidance): { least: Speed; most: Speed; count: number } {
  const ends = guidance.wind.flatMap((one) => (one.mostMph === null ? [] : [one.mostMph]))
  const sorted = [...ends].sort(compareNumbers)
  const told = (value: string | undefined): Speed => ({ value: value ?? '0', unit: 'mph' })
  return { least: told(sorted[0]), most: told(sorted.at(-1)), count: ends.length }
}

/** The wind against the label, then against what is published: one reason for each thing that speaks. */
export function judgeWind(
  label: LabelDay,
  readings: Readings,
  guidance: Guidance,
  settings: DaySettings,
): Reason[] {
  const { wind, gust } = readings
  if (wind === undefined) return [reason('question', 'weather.wind-unknown'), ...towards(readings)]
  if (compareNumbers(wind.value, 0) < 0) return [reason('refusal', 'weather.below-zero', { given: wind })]
  const found = [...againstLabel(label, wind, gust), ...towards(readings)]
  const stopped = found.some((one) => one.id === 'weather.wind-above-label')
  return stopped ? found : [...found, ...againstGuidance(label, wind, gust, guidance, settings)]
}

function againstLabel({ wind: limit }: LabelDay, wind: Speed, gust: Speed | undefined): Reason[] {
  if (limit === undefined) return []
  const found: Reason[] = []
  if (limit.most !== undefined && above(wind, limit.most))
    found.push(byLabel('refusal', 'weather.wind-above-label', { wind, limit: limit.most }, limit))
  else if (limit.most !== undefined && gust !== undefined && above(gust, limit.most))
    found.push(byLabel('hold', 'weather.gust-above-label', { gust, limit: limit.most }, limit))
  if (limit.least !== undefined && above(limit.least, wind))
    found.push(byLabel('refusal', 'weather.wind-below-label', { wind, limit: limit.least }, limit))
  return found
}

/** A label that prints a limit has the last word on it, so published advice beyond that is told, not enforced. */
function againstGuidance(
  label: LabelDay,
  wind: Speed,
  gust: Speed | undefined,
  guidance: Guidance,
  settings: DaySettings,
): Reason[] {
  const { least, most, count } = ceilingSpread(guidance)
  const spread = { least, most, sources: count }
  const strongest = gust !== undefined && above(gust, wind) ? gust : wind
  const silent = label.wind?.most === undefined
  if (above(strongest, settings.windStop)) {
    const figures = { wind: strongest, stop: settings.windStop, ...spread }
    const id = label.isUnread ? 'weather.wind-above-guidance-unread' : 'weather.wind-above-guidance'
    return silent
      ? [reason('hold', id, figures)]
      : [reason('heads-up', 'weather.wind-above-guidance-allowed', figures)]
  }
  if (above(strongest, settings.windEasy))
    return [reason('heads-up', 'weather.wind-brisk', { wind: strongest, easy: settings.windEasy, ...spread })]
  return []
}

function towards(readings: Readings): Reason[] {
  const targets = readings.towards ?? []
  if (targets.length === 0) return []
  const all = targets.map((target) => ({ say: `weather.target.${target}` }))
  return [reason('hold', 'weather.wind-towards', { targets: { all } })]
}
