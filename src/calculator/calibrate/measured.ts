import { compareNumbers } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { compareQuantities, quantity } from '#src/quantity/quantity.ts'
import type { UnitOf } from '#src/quantity/units.ts'
import type { Finding } from '../worked.ts'
import { finding } from '../worked.ts'

export type Length = Quantity<UnitOf<'length'>>
export type Area = Quantity<UnitOf<'area'>>
export type Volume = Quantity<UnitOf<'volume'>>
export type Mass = Quantity<UnitOf<'mass'>>
export type Time = Quantity<UnitOf<'time'>>
export type Speed = Quantity<UnitOf<'speed'>>
export type Flow = Quantity<UnitOf<'flow'>>
export type Pressure = Quantity<UnitOf<'pressure'>>

/** What somebody measured or typed, each with the most that a turf crew can mean by it. */
export type Measured =
  | 'ground'
  | 'used'
  | 'caught'
  | 'distance'
  | 'time'
  | 'speed'
  | 'flow'
  | 'spacing'
  | 'swath'
  | 'pressure'
  | 'weight'

/**
 * Above these a figure is a slip of the thumb or of the unit, not a measurement (common practice, no source).
 * They bound what is believed, never what a product allows.
 */
export const believable: Record<Measured, Quantity> = {
  ground: quantity(5000, 'acre'),
  used: quantity(5000, 'gal'),
  caught: quantity(500, 'gal'),
  distance: quantity(20, 'mi'),
  time: quantity(1, 'day'),
  speed: quantity(30, 'mph'),
  flow: quantity(500, 'gal/min'),
  spacing: quantity(10, 'ft'),
  swath: quantity(200, 'ft'),
  pressure: quantity(1500, 'psi'),
  weight: quantity(10_000, 'lb'),
}

/** Why this figure cannot be calculated with, or null: zero, below zero, or more than anybody means. */
export function doubt(what: Measured, given: Quantity): Finding | null {
  const said = { what: { say: `calibrate.what.${what}` }, given }
  if (compareNumbers(given.value, 0) <= 0) return finding('refusal', 'calibrate.not-above-zero', said)
  const most = believable[what]
  if (compareQuantities(given, most) > 0) return finding('refusal', 'calibrate.absurd', { ...said, most })
  return null
}

/** Every doubt about the given figures; what is absent is not doubted. */
export function doubts(given: Partial<Record<Measured, Quantity | undefined>>): Finding[] {
  return (Object.entries(given) as [Measured, Quantity | undefined][]).flatMap(([what, one]) => {
    const found = one === undefined ? null : doubt(what, one)
    return found === null ? [] : [found]
  })
}
