/**
 * Heat index in °F for the shade and a light wind: National Weather Service technical attachment SR 90-23 (1990), with
 * its two adjustments. Full sun can add up to 15 °F (Wichita State University mathematics page).
 * @param t air temperature in °F
 * @param r relative humidity in percent
 */
export function heatIndexF(t: number, r: number): number {
  const simple = 0.5 * (t + 61 + (t - 68) * 1.2 + 0.094 * r)
  const averaged = (simple + t) / 2
  if (averaged < 80) return averaged
  return regression(t, r) + adjustment(t, r)
}

function regression(t: number, r: number): number {
  return (
    -42.379 +
    2.04901523 * t +
    10.14333127 * r -
    0.22475541 * t * r -
    0.00683783 * t * t -
    0.05481717 * r * r +
    0.00122874 * t * t * r +
    0.00085282 * t * r * r -
    0.00000199 * t * t * r * r
  )
}

function adjustment(t: number, r: number): number {
  if (r < 13 && t >= 80 && t <= 112) return -((13 - r) / 4) * Math.sqrt((17 - Math.abs(t - 95)) / 17)
  if (r > 85 && t >= 80 && t <= 87) return ((r - 85) / 10) * ((87 - t) / 5)
  return 0
}
