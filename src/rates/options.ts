import { z } from 'zod'

const typed = z.string().min(1).max(500)

/** A rate with what it is to become; an output alone tells what a gallon covers. */
export const RateOptions = z.strictObject({
  amount: typed.optional().meta({ aliases: ['rate'] }),
  to: typed.optional(),
  strength: typed.optional(),
  density: typed.optional(),
  output: typed.optional().meta({ aliases: ['carrier'] }),
  band: typed.optional(),
  row: typed.optional(),
})
export type RateOptions = z.infer<typeof RateOptions>
