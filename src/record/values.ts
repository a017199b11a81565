import { z } from 'zod'
import { PlainDay } from '#src/label/day.ts'
import { Decimal, quantityOf } from '#src/quantity/rate.ts'
import { areaUnits, unitsOf } from '#src/quantity/units.ts'
import { Removed } from './not-recorded.ts'
import { isWellFormed } from './well-formed.ts'

const text = (most: number) =>
  z.string().trim().min(1).max(most).refine(isWellFormed, 'has broken characters')

export const ShortText = text(200)
export const LongText = text(2000)

/** Two or three letters of a language, with what follows: `en`, `es-MX`. */
export const Language = z.string().regex(/^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/)

/** Words as somebody typed them, with their language; `english` is a translation that a person gave. */
export const FreeText = z.strictObject({
  words: LongText,
  language: Language,
  english: LongText.exactOptional(),
})
export type FreeText = z.infer<typeof FreeText>

/** Words beside another value, or the place where words were. */
export const Words = z.union([FreeText, Removed])

const LOCAL = /^\d{4}-\d{2}-\d{2} ([01]\d|2[0-3]):[0-5]\d$/

/**
 * A moment, and what the clock on the wall said: both are kept, so that a record reads the same after a time zone has
 * changed its rules. `local` is `YYYY-MM-DD HH:MM` in `zone`.
 */
export const Moment = z.strictObject({
  atMs: z.int().min(0),
  local: z.string().regex(LOCAL),
  zone: text(60),
})
export type Moment = z.infer<typeof Moment>

/** The plain day of a moment where it was written. */
export function dayOf({ local }: Moment): string {
  return local.slice(0, 10)
}

/** One reading with its own time: wind is read at each stop, and an earlier reading keeps its hour. */
export function readingOf<S extends z.ZodType>(value: S) {
  return z.strictObject({ value, takenAt: Moment })
}

export const Speed = quantityOf(unitsOf('speed'))
export const Temperature = quantityOf(unitsOf('temperature'))
export const AreaSize = quantityOf(areaUnits)
export const Pressure = quantityOf(unitsOf('pressure'))

/** Where the wind blows from, in eight points, or from ever-changing sides. */
export const compassPoints = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW', 'variable'] as const
export const skies = ['clear', 'partly cloudy', 'cloudy', 'fog', 'rain'] as const
export const soils = ['dry', 'moist', 'wet', 'frozen', 'snow'] as const
export const inversionSigns = [
  'smoke-layer',
  'ground-fog',
  'dew-or-frost',
  'clear-sky',
  'sounds-carry',
] as const

/** Hours since the last rain and until the next as the forecast gives it; what nobody knows is left out. */
export const Rain = z.strictObject({
  hoursSince: Decimal.exactOptional(),
  hoursUntil: Decimal.exactOptional(),
})

/** `none`: this person holds no license. */
export const License = z.strictObject({
  number: ShortText,
  expiresOn: PlainDay.exactOptional(),
  /** Category as the state calls it: `3B`, `Ornamental and Turf`. */
  category: ShortText.exactOptional(),
})
export type License = z.infer<typeof License>
export const None = z.strictObject({ none: z.literal(true) })

/** A person by first and last name; the id is the crew's own. */
export const Person = z.strictObject({ name: ShortText, id: z.int().exactOptional() })
export type Person = z.infer<typeof Person>

/** A US address; the ZIP has five digits, with four more if known. */
export const Address = z.strictObject({
  street: ShortText,
  town: ShortText,
  state: z.string().regex(/^[A-Z]{2}$/),
  zip: z
    .string()
    .regex(/^\d{5}(-\d{4})?$/)
    .exactOptional(),
})
export type Address = z.infer<typeof Address>
