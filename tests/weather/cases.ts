import { readData } from '#src/project.ts'
import { loadGuidance } from '#src/weather/guidance.ts'
import type { LabelDay, Readings } from '#src/weather/readings.ts'

export const guidance = loadGuidance(readData)

/** A label that says nothing on the day, of a product for the leaf in no group that anybody warns of. */
export const silent: LabelDay = { groups: ['14'], through: 'leaf' }

export const mph = (value: number | string) => ({ value: String(value), unit: 'mph' as const })
export const degF = (value: number | string) => ({ value: String(value), unit: 'F' as const })

/** A day on which nothing speaks against spraying. */
export function fairDay(change: Readings = {}): Readings {
  return {
    wind: mph(5),
    temperature: degF(70),
    forecastHigh: degF(78),
    humidityPercent: '55',
    rainInHours: 48,
    ...change,
  }
}
