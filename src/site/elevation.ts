import type { Reader } from '#src/conversation/reader.ts'
import { say } from '#src/conversation/text.ts'
import { decimalText } from '#src/quantity/big.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import type { Elevation } from '#src/store/elevation.ts'

/** Between the lowest and the highest town of the US (from memory: −200 ft and 11,000 ft), with room. */
const LOWEST_FT = -300
const HIGHEST_FT = 14_000

/**
 * Reads a height above the sea, "5280 ft" or "-120 ft"; a bare number is in `units`. Null where nothing was typed, or
 * where it cannot be, which the reader is then told.
 */
export function readElevation(
  text: string | undefined,
  read: Reader,
  units: 'us' | 'metric',
): Elevation | null {
  const isBelow = text?.trim().startsWith('-') === true
  const height = read.quantity('elevation', isBelow ? text?.trim().slice(1) : text, {
    expect: 'length',
    bareUnit: units === 'metric' ? 'm' : 'ft',
    allowZero: true,
  })
  if (height === undefined) return null
  const sign = isBelow ? -1 : 1
  const feet = amountIn(height, 'ft').times(sign)
  if (feet.lt(LOWEST_FT) || feet.gt(HIGHEST_FT)) {
    read.refuse('elevation', say('setup.elevation-unknown', { given: height }))
    return null
  }
  const unit = height.unit === 'm' ? 'm' : 'ft'
  return { value: decimalText(amountIn(height, unit).times(sign)), unit }
}
