import { compareQuantities } from '#src/quantity/quantity.ts'
import type { Guidance, HeatAdvice } from './guidance.ts'
import type { LabelDay, Readings, Temperature } from './readings.ts'
import type { Reason } from './reason.ts'
import { byLabel, reason } from './reason.ts'

/** Air temperature and the forecast high against the label, then against what is published for this group. */
export function judgeTemperature(label: LabelDay, readings: Readings, guidance: Guidance): Reason[] {
  const { temperature } = readings
  const limit = label.temperature
  if (temperature === undefined) {
    const asked = limit === undefined ? [] : [reason('question', 'weather.temperature-unknown')]
    return [...asked, ...againstGuidance(label, readings, guidance)]
  }
  const found = againstLabel(limit, temperature)
  return found.length > 0 ? found : againstGuidance(label, readings, guidance)
}

function againstLabel(limit: LabelDay['temperature'], temperature: Temperature): Reason[] {
  if (limit === undefined) return []
  const found: Reason[] = []
  if (limit.most !== undefined && compareQuantities(temperature, limit.most) > 0)
    found.push(byLabel('refusal', 'weather.too-hot-label', { temperature, limit: limit.most }, limit))
  if (limit.least !== undefined && compareQuantities(temperature, limit.least) < 0)
    found.push(byLabel('refusal', 'weather.too-cold-label', { temperature, limit: limit.least }, limit))
  return found
}

/**
 * Published advice speaks for the groups that it names and for products taken up by the leaf, so that it does not
 * fire on every summer day. Where the label prints its own upper limit, heat advice is a heads-up at most.
 */
function againstGuidance(label: LabelDay, readings: Readings, guidance: Guidance): Reason[] {
  if (label.through === 'soil') return []
  const speaking = guidance.heat.filter((advice) => {
    return advice.groups === 'any' || advice.groups.some((group) => label.groups.includes(group))
  })
  return speaking.flatMap((advice) => heed(advice, label, readings))
}

function heed(advice: HeatAdvice, label: LabelDay, readings: Readings): Reason[] {
  const reading = advice.of === 'air' ? readings.temperature : readings.forecastHigh
  if (reading === undefined) return []
  const told = (value: string): Temperature => ({ value, unit: 'F' })
  const source = { literal: advice.source.name }
  if (advice.aboveF !== null) {
    const order = compareQuantities(reading, told(advice.aboveF))
    if (order > 0 || (advice.including && order === 0)) {
      const outcome = label.temperature?.most === undefined ? advice.outcome : 'heads-up'
      const id = advice.of === 'air' ? 'weather.too-hot-advice' : 'weather.forecast-hot-advice'
      return [reason(outcome, id, { temperature: reading, limit: told(advice.aboveF), source })]
    }
  }
  if (advice.belowF === null || compareQuantities(reading, told(advice.belowF)) >= 0) return []
  const outcome = label.temperature?.least === undefined ? advice.outcome : 'heads-up'
  return [
    reason(outcome, 'weather.too-cold-advice', { temperature: reading, limit: told(advice.belowF), source }),
  ]
}
