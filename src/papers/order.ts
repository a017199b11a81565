import { z } from 'zod'
import { PlainDay } from '#src/label/day.ts'
import { KeptFilter } from '#src/records/kept-filter.ts'

/** Who a paper is for. It decides which fields stand in it. */
export const Reader = z.enum(['inspector', 'customer', 'treating'])
export type Reader = z.infer<typeof Reader>

export const Format = z.enum(['csv', 'pdf', 'json'])
export type Format = z.infer<typeof Format>

/** A paper as it is ordered: plain data in a reply, written after the commit. */
export const PaperOrder = z.strictObject({
  crewId: z.int(),
  reader: Reader,
  format: Format,
  filter: KeptFilter,
  /** Everything that was kept when it was ordered, and nothing later. */
  until: z.strictObject({
    number: z.int(),
    head: z.strictObject({ seq: z.int(), hash: z.string() }).nullable(),
  }),
  /** The day of the order, and what was asked for, in English. */
  day: PlainDay,
  asked: z.string(),
})
export type PaperOrder = z.infer<typeof PaperOrder>

/** Name under which a reply asks for this paper. */
export const RECORDS_PAPER = 'records'
