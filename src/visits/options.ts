import { z } from 'zod'

const typed = (most: number) => z.string().min(1).max(most)

export const DueOptions = z.strictObject({
  site: typed(80).optional().meta({ suggest: 'sites' }),
  /** Everybody's, as far as they are overdue. */
  overdue: z.boolean().optional(),
})
export type DueOptions = z.infer<typeof DueOptions>

export const PlotsOptions = z.strictObject({
  record: typed(14).meta({ aliases: ['application'] }),
  seeding: typed(40).optional(),
})
export type PlotsOptions = z.infer<typeof PlotsOptions>

export const RateOptions = z.strictObject({ record: typed(14).meta({ aliases: ['application'] }) })
export type RateOptions = z.infer<typeof RateOptions>

export const HistoryOptions = z.strictObject({
  record: typed(14)
    .optional()
    .meta({ aliases: ['application'] }),
  site: typed(80).optional().meta({ suggest: 'sites' }),
  area: typed(80).optional().meta({ suggest: 'areas' }),
})
export type HistoryOptions = z.infer<typeof HistoryOptions>

export const ScheduleOptions = z.strictObject({
  weed: typed(40).optional(),
  look: typed(40).optional(),
  days: typed(40).optional(),
  work_days: typed(60).optional(),
  hours: typed(40).optional(),
  days_off: typed(400).optional(),
  round: typed(80).optional(),
  done: z.int().min(1).max(100).optional(),
  injury: z.int().min(1).max(9).optional(),
})
export type ScheduleOptions = z.infer<typeof ScheduleOptions>
