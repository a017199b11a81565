import { z } from 'zod'

const typed = (most = 500) => z.string().min(1).max(most).optional()

export const Method = z.enum([
  'hand',
  'refill',
  'ounce',
  'boom',
  'boomless',
  'nozzles',
  'speed',
  'pace',
  'pressure',
  'spreader',
  'pans',
  'spots',
])
export type Method = z.infer<typeof Method>

/** What was measured. Each method takes its own; what is missing is asked. */
export const CalibrateOptions = z.strictObject({
  method: Method.optional(),
  ground: typed(),
  used: typed(),
  caught: typed().meta({ aliases: ['measurements'] }),
  spacing: typed(),
  width: typed().meta({ aliases: ['swath'] }),
  distance: typed().meta({ aliases: ['length'] }),
  time: typed(),
  flow: typed(),
  speed: typed(),
  output: typed().meta({ aliases: ['carrier'] }),
  pressure: typed(),
  /** The pressure, flow, speed or output that is wanted instead. */
  to: typed().meta({ aliases: ['new_pressure', 'new_speed', 'new_flow', 'new_output'] }),
  before: typed(),
  after: typed(),
  target: typed(),
  analysis: typed(40),
  spots: typed(10),
  tolerance: typed(10),
  sprayer: typed(80).meta({ suggest: 'sprayers' }),
  for: typed(80).meta({ suggest: 'people' }),
  tip: typed(80),
  setting: typed(80),
  unit: typed(40),
})
export type CalibrateOptions = z.infer<typeof CalibrateOptions>
