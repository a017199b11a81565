import { z } from 'zod'
import { Figure, NamedTurf, NamedWeed, Words } from './printed.ts'

export const Season = z.enum(['spring', 'summer', 'fall', 'winter'])
export type Season = z.infer<typeof Season>

/** One rate in one printed unit. With no `low` the label prints a single rate, which is both ends. */
export const PrintedRate = z.strictObject({ low: Figure.exactOptional(), high: Figure })
export type PrintedRate = z.infer<typeof PrintedRate>

/**
 * One rate line of a label: on which turf, against what, when, and how much. `rates` repeats the same rate in every
 * unit that the label prints; such pairs may disagree in their last digit and are kept as they stand.
 */
export const RateLine = z.strictObject({
  id: z
    .string()
    .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)
    .max(40),
  /** The line as printed. */
  line: Words,
  page: z.string().trim().min(1).max(20).exactOptional(),
  turfs: z.array(NamedTurf).min(1),
  /** With none, the line names no weeds: it is for whatever grows there. */
  weeds: z.array(NamedWeed).min(1).exactOptional(),
  seasons: z.array(Season).min(1).exactOptional(),
  treatment: z.enum(['first', 'repeat', 'any']),
  /** For turf that is fully dormant and no other. */
  dormantOnly: z.literal(true).exactOptional(),
  rates: z.array(PrintedRate).min(1),
  minimumOutput: Figure.exactOptional(),
  notes: z.array(Words).exactOptional(),
})
export type RateLine = z.infer<typeof RateLine>
