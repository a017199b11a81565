import { z } from 'zod'
import { StoredFile } from '#src/conversation/ask.ts'

const typed = (most: number) => z.string().min(1).max(most).optional()

/** Everything that can be said about a plant in one line; what is missing is asked. */
export const KeyOptions = z.strictObject({
  site: typed(80).meta({ suggest: 'sites' }),
  area: typed(80).meta({ suggest: 'areas' }),
  turf: typed(120).meta({ suggest: 'turfs' }),
  guess: typed(120).meta({ suggest: 'weeds' }),
  observed: typed(1500).meta({ suggest: 'observed' }),
  seed_head: z.boolean().optional(),
  mown: z.boolean().optional(),
  photo: StoredFile.optional().meta({ file: true }),
  /** The number of a walk, or any word for a list of those that have no end yet. */
  resume: typed(20),
})
export type KeyOptions = z.infer<typeof KeyOptions>
