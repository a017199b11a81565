import { sayDroplet } from '#src/conversation/say-droplet.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { compareQuantities } from '#src/quantity/quantity.ts'
import { measureOf } from '../figures.ts'
import type { ReasonId } from '../ids.ts'
import { sourceOf } from '../printed.ts'
import type { Reason } from '../verdict.ts'
import { reason } from '../verdict.ts'
import type { Case } from './case.ts'

/** Above or below the label's temperatures; while nobody has measured, the limit is told. */
export function checkTemperature({ entry: { limits }, situation }: Case): readonly Reason[] {
  const limit = limits.temperature
  if (limit === undefined) return []
  const now = situation.conditions?.temperature
  return [
    ...endReasons('hot', limit.most, now, (text) => measureOf(text, 'temperature')),
    ...endReasons('cold', limit.least, now, (text) => measureOf(text, 'temperature')),
  ].map((found) => ({ ...found, ...sourceOf(limit) }))
}

/** Above the label's wind, or below it, where air may lie still; while nobody has measured, the limit is told. */
export function checkWind({ entry: { limits }, situation }: Case): readonly Reason[] {
  const limit = limits.wind
  if (limit === undefined) return []
  const now = situation.conditions?.wind
  return [
    ...endReasons('windy', limit.most, now, (text) => measureOf(text, 'speed')),
    ...endReasons('calm', limit.least, now, (text) => measureOf(text, 'speed')),
  ].map((found) => ({ ...found, ...sourceOf(limit) }))
}

type End = 'hot' | 'cold' | 'windy' | 'calm'

function endReasons(
  end: End,
  text: string | undefined,
  now: Quantity | undefined,
  read: (text: string) => Quantity,
): Reason[] {
  if (text === undefined) return []
  const limit = read(text)
  const shown = { value: limit.value, unit: limit.unit }
  if (now === undefined) return [reason('answer', `mind-${end}`, { limit: shown })]
  const beyond = compareQuantities(now, limit)
  const isBeyond = end === 'hot' || end === 'windy' ? beyond > 0 : beyond < 0
  return isBeyond
    ? [reason('refusal', `too-${end}`, { limit: shown, now: { value: now.value, unit: now.unit } })]
    : []
}

/** Rain comes before the hours are over that the label wants dry. */
export function checkRain({ entry: { limits }, situation }: Case): readonly Reason[] {
  const limit = limits.rainFree
  if (limit === undefined) return []
  const rain = situation.conditions?.rainInHours
  if (rain === undefined) return [reason('answer', 'mind-rain', { hours: limit.hours }, limit)]
  return rain < limit.hours ? [reason('hold', 'rain-too-soon', { hours: limit.hours, rain }, limit)] : []
}

/** Watering and droplets are told with every answer; nobody can measure them beforehand. */
export function tellWateringAndDroplets({ entry: { limits } }: Case): readonly Reason[] {
  const { watering, droplets } = limits
  return [
    ...(watering
      ? [reason('answer', wateringId(watering.rule), { hours: watering.hours ?? 0 }, watering)]
      : []),
    ...(droplets
      ? [
          reason(
            'answer',
            'mind-droplets',
            { classes: { all: droplets.classes.map(sayDroplet), join: 'or' } },
            droplets,
          ),
        ]
      : []),
  ]
}

function wateringId(rule: 'hold off' | 'water in'): ReasonId {
  return rule === 'hold off' ? 'mind-no-watering' : 'mind-water-in'
}
