import { toMark } from '#src/calculator/mix/marks.ts'
import type { Volume } from '#src/calculator/mix/request.ts'
import { compareQuantities, scale } from '#src/quantity/quantity.ts'
import type { Sprayer } from '#src/store/sprayers.ts'

/** One column of the card: half a tank, one gallon, or a full tank. */
export interface CardFill {
  readonly id: 'half' | 'gallon' | 'full'
  readonly volume: Volume
  /** The distance between the tank's marks; a gallon is mixed beside it, in whatever has a gallon mark. */
  readonly mark: Volume | undefined
}

const GALLON: Volume = { value: '1', unit: 'gal' }

/** Half on the tank's own marks, one gallon, full. A gallon that is half or all of the tank is told once. */
export function fillsOf({ details }: Pick<Sprayer, 'details'>): readonly CardFill[] {
  const tank = details.tank as Volume
  const mark = (details.marks ?? undefined) as Volume | undefined
  const half: CardFill = { id: 'half', volume: toMark(scale(tank, '0.5'), mark, tank, 'nearest'), mark }
  const full: CardFill = { id: 'full', volume: tank, mark }
  const order = compareQuantities(GALLON, tank)
  const isOwn = order < 0 && compareQuantities(GALLON, half.volume) !== 0
  return isOwn ? [half, { id: 'gallon', volume: GALLON, mark: undefined }, full] : [half, full]
}
