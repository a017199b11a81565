import { z } from 'zod'

const typed = (most = 500) => z.string().min(1).max(most).optional()

export const Method = z.enum([
  'hand',
  'refill',
  'ounce',
  'boom',
  'nozzles',
  'speed',
  'pressure',
  'spreader',
  'spots',
])
export type Method = z.infer<typeof Method>

/** What was measured. Each method takes its own; what is missing is asked. */
export const CalibrateOptions = z.strictObject({
  method: Method.optional(),
  ground: typed(),
  used: typed(),
  caught: typed(),
  spacing: typed(),
  width: typed().meta({ aliases: ['swath'] }),
  distance: typed().meta({ aliases: ['length'] }),
  time: typed(),
  flow: typed(),
  speed: typed(),
  output: typed().meta({ aliases: ['carrier'] }),
  pressure: typed(),
  new_pressure: typed(),
  before: typed(),
  after: typed(),
  target: typed(),
  analysis: typed(),
  spots: z.int().positive().max(100_000).optional(),
  tolerance: z.number().positive().max(50).optional(),
  sprayer: typed(80).meta({ suggest: 'sprayers' }),
  for: typed(80).meta({ suggest: 'people' }),
})
export type CalibrateOptions = z.infer<typeof CalibrateOptions>
