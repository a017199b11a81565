import { compareNumbers } from '#src/quantity/big.ts'
import type { Guidance } from './guidance.ts'
import type { LabelDay, Readings } from './readings.ts'
import type { Reason } from './reason.ts'
import { byLabel, reason } from './reason.ts'

const hours = (value: number | string) => ({ value: String(value), unit: 'h' })

/** Rain to come against the label's rain-free time, else against what is published, with its spread. */
export function judgeRain(label: LabelDay, readings: Readings, guidance: Guidance): Reason[] {
  const until = readings.rainInHours
  if (until === undefined)
    return label.rainFree === undefined ? [] : [reason('question', 'weather.rain-unknown')]
  if (until <= 0) return [reason('hold', 'weather.raining')]
  if (label.rainFree !== undefined) return againstLabel(label.rainFree, until)
  if (label.through === 'soil' || label.watering?.rule === 'water in') return []
  return againstGuidance(until, guidance, label.isUnread === true)
}

function againstLabel(limit: NonNullable<LabelDay['rainFree']>, until: number): Reason[] {
  if (until >= limit.hours) return []
  return [
    byLabel('hold', 'weather.rain-too-soon-label', { rain: hours(until), needed: hours(limit.hours) }, limit),
  ]
}

/** Published times run from one hour to a day. Under the shortest nobody would spray; under the longest it is told. */
function againstGuidance(until: number, guidance: Guidance, isUnread: boolean): Reason[] {
  const least = [...guidance.rain.map((one) => one.least)].sort(compareNumbers)[0] ?? '0'
  const most = [...guidance.rain.map((one) => one.most)].sort(compareNumbers).at(-1) ?? '0'
  if (compareNumbers(until, most) >= 0) return []
  const outcome = compareNumbers(until, least) < 0 ? 'hold' : 'heads-up'
  const maybe = isUnread ? 'weather.rain-maybe-too-soon-unread' : 'weather.rain-maybe-too-soon'
  const id = outcome === 'hold' ? 'weather.rain-too-soon' : maybe
  return [reason(outcome, id, { rain: hours(until), least: hours(least), most: hours(most) })]
}
