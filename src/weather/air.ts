/**
 * Air by formula. These are fits to measurements, good to a few hundredths of a degree at best, so plain numbers serve;
 * whatever is compared with a limit of a label stays exact.
 */
export interface Air {
  readonly celsius: number
  /** Relative humidity in percent, 0 to 100. */
  readonly humidityPercent: number
  /** Pressure of the place. @default sea level */
  readonly pressureKPa?: number
}

/** Standard pressure at sea level. */
export const SEA_LEVEL_KPA = 101.325

/** Saturation vapor pressure in kPa: FAO Irrigation and Drainage Paper 56, chapter 3. */
export function saturationKPa(celsius: number): number {
  return 0.6108 * Math.exp((17.27 * celsius) / (celsius + 237.3))
}

/** Vapor pressure of the air in kPa. */
export function vaporKPa(air: Air): number {
  return (saturationKPa(air.celsius) * air.humidityPercent) / 100
}

/** Vapor pressure deficit in kPa: how much more the air would take up. */
export function vaporDeficitKPa(air: Air): number {
  return saturationKPa(air.celsius) - vaporKPa(air)
}

/**
 * Temperature to which air must cool to be saturated, in °C: saturationKPa() turned round. It is not the wet bulb,
 * which lies between it and the air temperature. Minus infinity for air without any vapor.
 */
export function dewPointCelsius(air: Air): number {
  const ratio = Math.log(vaporKPa(air) / 0.6108)
  return ratio === Number.NEGATIVE_INFINITY ? ratio : (237.3 * ratio) / (17.27 - ratio)
}

/** Pressure at a height above the sea, in kPa: FAO Irrigation and Drainage Paper 56, equation 7. */
export function pressureAtKPa(elevationM: number): number {
  return 101.3 * ((293 - 0.0065 * elevationM) / 293) ** 5.26
}
