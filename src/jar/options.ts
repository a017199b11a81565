import { z } from 'zod'
import { MixOptions } from '#src/mixing/options.ts'

const { product, also, rate, line, output, sprayer, adjuvant } = MixOptions.shape
const whose = MixOptions.shape.for

/** The products of a tank, how heavily it is sprayed, and the jar that stands for it. */
export const JarOptions = z.strictObject({
  product,
  also,
  rate,
  line,
  output,
  sprayer,
  for: whose,
  adjuvant,
  jar: z.string().min(1).max(40).optional(),
})
export type JarOptions = z.infer<typeof JarOptions>
