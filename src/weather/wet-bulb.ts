import type { Air } from './air.ts'
import { dewPointCelsius, SEA_LEVEL_KPA, saturationKPa, vaporKPa } from './air.ts'

/**
 * Psychrometer coefficient of a ventilated instrument, per °C: FAO Irrigation and Drainage Paper 56, equation 16
 * (from memory).
 */
export const VENTILATED_PER_C = 0.000662

/** Far below any wet bulb: where the search begins in air without vapor. */
const COLDEST_FALL_C = 80
const HALVINGS = 60

/**
 * Wet bulb in °C, from the balance of a ventilated psychrometer: the vapor pressure of the air is that of saturated
 * air at the wet bulb less coefficient × pressure × (dry − wet). The difference of both sides grows with the wet
 * bulb, is at most zero at the dew point and at least zero at the air temperature, so halving between the two always
 * ends at the one solution: never above the air temperature, and equal to it at 100 % humidity.
 * Below freezing it is the wet bulb of water, not of ice.
 */
export function wetBulbCelsius(air: Air): number {
  const { celsius, pressureKPa = SEA_LEVEL_KPA } = air
  if (air.humidityPercent >= 100) return celsius
  const vapor = vaporKPa(air)
  const excess = (wet: number) =>
    saturationKPa(wet) - VENTILATED_PER_C * pressureKPa * (celsius - wet) - vapor
  let low = Math.max(dewPointCelsius(air), celsius - COLDEST_FALL_C)
  let high = celsius
  for (let halving = 0; halving < HALVINGS; halving++) {
    const middle = (low + high) / 2
    if (excess(middle) > 0) high = middle
    else low = middle
  }
  return (low + high) / 2
}

/** Vapor pressure from both bulbs in kPa, the balance read the other way. */
export function vaporFromBulbsKPa(dry: number, wet: number, pressureKPa: number = SEA_LEVEL_KPA): number {
  return saturationKPa(wet) - VENTILATED_PER_C * pressureKPa * (dry - wet)
}

/** Where the closed form below was fitted, and how far off it may be. */
export const closedFormValidity = {
  leastHumidityPercent: 5,
  mostHumidityPercent: 99,
  leastCelsius: -20,
  mostCelsius: 50,
  /** Reads at most so much low and so much high. */
  errorC: [-1, 0.65],
} as const

/**
 * Wet bulb in °C by the closed form of J. Appl. Meteor. Climatol. 50:2267 (2011), at sea level; null outside the range
 * for which it was fitted. A second opinion only: in cold dry air it lies above the air temperature, which no wet bulb
 * does, and in hot or very dry air up to 1.4 °C off the balance above.
 */
export function wetBulbClosedForm({ celsius: t, humidityPercent: rh }: Air): number | null {
  const valid = closedFormValidity
  if (rh < valid.leastHumidityPercent || rh > valid.mostHumidityPercent) return null
  if (t < valid.leastCelsius || t > valid.mostCelsius) return null
  return (
    t * Math.atan(0.151977 * Math.sqrt(rh + 8.313659)) +
    Math.atan(t + rh) -
    Math.atan(rh - 1.676331) +
    0.00391838 * rh ** 1.5 * Math.atan(0.023101 * rh) -
    4.686035
  )
}

/** Delta T in °C: how far the wet bulb lies below the air temperature. A difference, so °F need 9/5 and no 32. */
export function deltaTCelsius(air: Air): number {
  return Math.max(0, air.celsius - wetBulbCelsius(air))
}
