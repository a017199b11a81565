import { z } from 'zod'

/** Asked for, and nobody knows: it stands in the record as such, and no value is ever made up in its place. */
export const NotRecorded = z.strictObject({ notRecorded: z.literal(true) })
export type NotRecorded = z.infer<typeof NotRecorded>

/** Personal data that stood here and were taken out; what proves that they stood here is kept in the chain. */
export const Removed = z.strictObject({ removed: z.literal(true) })
export type Removed = z.infer<typeof Removed>

export const notRecorded: NotRecorded = { notRecorded: true }

/** A value, "not recorded", taken out since, or absent because nobody has been asked. */
export function maybe<S extends z.ZodType>(schema: S) {
  return z.union([schema, NotRecorded, Removed]).exactOptional()
}

export function isNotRecorded(value: unknown): value is NotRecorded {
  return isMarked(value, 'notRecorded')
}

export function isRemoved(value: unknown): value is Removed {
  return isMarked(value, 'removed')
}

function isMarked(value: unknown, mark: string): boolean {
  return typeof value === 'object' && value !== null && Object.hasOwn(value, mark)
}

/** The value itself; undefined when it is absent, not recorded or taken out. */
export function recorded<T>(value: T | NotRecorded | Removed | undefined): T | undefined {
  return isNotRecorded(value) || isRemoved(value) ? undefined : value
}
