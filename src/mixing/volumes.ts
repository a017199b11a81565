import type { Area, Volume } from '#src/calculator/mix/request.ts'
import type { Reader } from '#src/conversation/reader.ts'
import { say } from '#src/conversation/text.ts'
import { big, decimalText } from '#src/quantity/big.ts'
import { readNumber } from '#src/quantity/number.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import type { VolumeUnit } from '#src/quantity/units.ts'
import type { MixOptions } from './options.ts'
import type { Named } from './resolve.ts'

/** How much mix: a filling, or the ground that it must cover. */
export interface Volumes {
  readonly fill: Volume | undefined
  readonly ground: Area | undefined
  readonly capacity: Volume | undefined
  readonly marks: Volume | undefined
  readonly inTank: Volume | undefined
}

/** Larger than any tank that a crew pulls behind a truck. */
const MOST_TANK = { value: '5000', unit: 'gal' } as const
const MOST_GROUND = { value: '1000', unit: 'acre' } as const

/** Volumes as typed, fractions of a named sprayer's tank among them; null when nothing says how much. */
export function readVolumes(given: MixOptions, named: Named, read: Reader): Volumes | null {
  const tank = named.sprayer?.details.tank as Volume | undefined
  const marks = (named.sprayer?.details.marks ?? undefined) as Volume | undefined
  const fill = given.tank === undefined ? undefined : readTank(given.tank, tank, read)
  const ground = read.quantity('ground', given.ground, {
    expect: 'area',
    bareUnit: 'ft2',
    limit: MOST_GROUND,
  })
  const inTank = read.quantity('in_tank', given.in_tank, {
    expect: 'volume',
    bareUnit: 'gal',
    limit: MOST_TANK,
    allowZero: true,
  })
  const whole =
    ground ??
    (given.tank === undefined && named.area !== null && tank !== undefined ? areaOf(named) : undefined)
  if (fill === undefined && whole === undefined && read.problems.length === 0) return null
  if (whole !== undefined && fill === undefined && tank === undefined) {
    read.refuse('sprayer', say('mixing.ground-needs-tank'))
    return null
  }
  return { fill, ground: whole, capacity: tank ?? fill, marks, inTank }
}

function areaOf({ area }: Named): Area | undefined {
  return area === null ? undefined : { value: area.squareFeet, unit: 'ft2' }
}

/** `2 gal`, or `1/2`, `half`, `full`, `50%` of the tank of a named sprayer. */
function readTank(text: string, tank: Volume | undefined, read: Reader): Quantity<VolumeUnit> | undefined {
  const share = readShare(text)
  if (share === null) return read.quantity('tank', text, { expect: 'volume', limit: MOST_TANK })
  if (tank === undefined) {
    read.refuse('tank', say('mixing.share-needs-sprayer', { text }))
    return undefined
  }
  return { value: decimalText(big(tank.value).times(share)), unit: tank.unit }
}

const WORDS: Readonly<Record<string, string>> = {
  full: '1',
  lleno: '1',
  half: '0.5',
  medio: '0.5',
  mitad: '0.5',
  quarter: '0.25',
}

/** A part of a whole, above 0 and at most 1; null when the text is something else. */
function readShare(text: string): string | null {
  const plain = text.trim().toLowerCase()
  const word = WORDS[plain]
  if (word !== undefined) return word
  const percent = /^(\d{1,3}(?:\.\d+)?)\s*%$/.exec(plain)
  if (percent?.[1] !== undefined && Number(percent[1]) > 0 && Number(percent[1]) <= 100)
    return decimalText(big(percent[1]).div(100))
  const read = readNumber(plain, { locale: 'en', expected: 'volume' })
  if (!read.ok || read.value.rest.trim() !== '') return null
  const number = big(read.value.value)
  return number.gt(0) && number.lte(1) ? decimalText(number) : null
}
