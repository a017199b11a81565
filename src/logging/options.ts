import { z } from 'zod'
import { StoredFile } from '#src/conversation/ask.ts'
import { Spots } from '#src/mixing/options.ts'

const typed = (most = 200) => z.string().min(1).max(most).optional()

/** What can be said of an application at once; whatever is left out is asked, if it is needed. */
export const LogOptions = z.strictObject({
  mix: typed(20),
  draft: typed(20),
  product: typed().meta({ suggest: 'products' }),
  amount: typed(),
  rate: typed(),
  used: typed(),
  site: typed(80).meta({ suggest: 'sites' }),
  area: typed(80).meta({ suggest: 'areas' }),
  coverage: z.enum(['whole area', 'spots', 'strip']).optional(),
  spots: Spots.optional(),
  ground: typed(),
  weed: typed(80).meta({ suggest: 'weeds' }),
  sprayer: typed(80).meta({ suggest: 'sprayers' }),
  for: typed(80).meta({ suggest: 'people' }),
  date: typed(),
  start: typed(),
  end: typed(),
  wind: typed(),
  wind_from: typed(20),
  temperature: typed(),
  humidity: typed(),
  hands_washed: z.boolean().optional(),
  unusual: z.boolean().optional(),
  notes: typed(1000),
  photo: StoredFile.optional().meta({ file: true }),
})
export type LogOptions = z.infer<typeof LogOptions>

/** Which draft a question is about; null before there is one, with what was said with the command. */
export const LogState = z.strictObject({ draft: z.int().min(1).nullable(), given: LogOptions.optional() })
export type LogState = z.infer<typeof LogState>
