import { z } from 'zod'
import { PlainDay } from '#src/label/day.ts'

/** A filter as it waits in a choice or in the order of a paper: plain data, checked when it comes back. */
export const KeptFilter = z.strictObject({
  number: z.int().positive().exactOptional(),
  siteId: z.int().exactOptional(),
  personId: z.int().exactOptional(),
  product: z.string().exactOptional(),
  from: PlainDay.exactOptional(),
  to: PlainDay.exactOptional(),
  complete: z.boolean().exactOptional(),
  /** Only those whose day nobody wrote down. */
  noDay: z.literal(true).exactOptional(),
})
export type KeptFilter = z.infer<typeof KeptFilter>
