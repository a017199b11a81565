import { big, compareNumbers } from '#src/quantity/big.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import type { Air } from './air.ts'
import { vaporDeficitKPa } from './air.ts'
import type { Guidance } from './guidance.ts'
import type { Readings, Temperature } from './readings.ts'
import type { Reason } from './reason.ts'
import { reason } from './reason.ts'
import { deltaTCelsius, wetBulbCelsius } from './wet-bulb.ts'

/** What air does to drops. All temperatures in °C; Delta T is a difference. */
export interface Drying {
  readonly wetBulb: { readonly value: string; readonly unit: 'C' }
  readonly deltaT: { readonly value: string; readonly unit: 'C' }
  readonly vaporDeficit: { readonly value: string; readonly unit: 'kPa' }
}

const tenth = (value: number) => String(Number(value.toFixed(1)))
const hundredth = (value: number) => String(Number(value.toFixed(2)))

/** Air from a typed temperature and humidity, or why it cannot be that. */
export function readAir(readings: Readings): Air | Reason | null {
  const { temperature, humidityPercent, pressureKPa } = readings
  if (temperature === undefined || humidityPercent === undefined) return null
  if (compareNumbers(humidityPercent, 0) < 0 || compareNumbers(humidityPercent, 100) > 0)
    return reason('refusal', 'weather.bad-humidity', { given: { value: humidityPercent, unit: '%' } })
  if (!isEarthly(temperature)) return reason('refusal', 'weather.bad-temperature', { given: temperature })
  const celsius = amountIn(temperature, 'C').toNumber()
  const air = { celsius, humidityPercent: big(humidityPercent).toNumber() }
  return pressureKPa === undefined ? air : { ...air, pressureKPa }
}

/** Between the coldest and the hottest air that a crew may meet (common practice, no source). */
export function isEarthly(temperature: Temperature): boolean {
  const celsius = amountIn(temperature, 'C')
  return compareNumbers(celsius, -50) >= 0 && compareNumbers(celsius, 60) <= 0
}

/** Wet bulb, Delta T and vapor pressure deficit, rounded to what the formulas are good for. */
export function dryingOf(air: Air): Drying {
  return {
    wetBulb: { value: tenth(wetBulbCelsius(air)), unit: 'C' },
    deltaT: { value: tenth(deltaTCelsius(air)), unit: 'C' },
    vaporDeficit: { value: hundredth(vaporDeficitKPa(air)), unit: 'kPa' },
  }
}

/** Delta T against its published window: a heads-up only, since no label here prints it. */
export function judgeDrying(air: Air, guidance: Guidance): Reason[] {
  const { leastC, bestMostC, mostC, source } = guidance.deltaT
  const { deltaT } = dryingOf(air)
  const figures = { deltaT, source: { literal: source.name } }
  if (compareNumbers(deltaT.value, leastC) < 0) return [reason('heads-up', 'weather.delta-t-low', figures)]
  if (compareNumbers(deltaT.value, mostC) > 0) return [reason('heads-up', 'weather.delta-t-high', figures)]
  if (compareNumbers(deltaT.value, bestMostC) > 0)
    return [reason('heads-up', 'weather.delta-t-edge', figures)]
  return []
}
