import { z } from 'zod'
import { Season } from '#src/label/rate-line.ts'

const typed = (most = 500) => z.string().min(1).max(most).optional()

/** Which ground of an area that was treated before: the same, other spots, or a strip that was missed then. */
export const Spots = z.enum(['same', 'other', 'missed strip'])
export type Spots = z.infer<typeof Spots>

/** Everything that can be said about a mix. Each answer to a question adds one of these. */
export const MixOptions = z.strictObject({
  product: typed(80).meta({ suggest: 'products' }),
  /** More products in the same tank: `Product B; Product C @ 0.5 % v/v`. */
  also: typed().meta({ aliases: ['with'] }),
  rate: typed(),
  tank: typed().meta({ aliases: ['spray'] }),
  sprayer: typed(80).meta({ suggest: 'sprayers' }),
  ground: typed(),
  /** One, or the day's sites behind each other: `A / Front lawn; B`. */
  site: typed(300).meta({ suggest: 'sites' }),
  area: typed(80).meta({ suggest: 'areas' }),
  output: typed().meta({ aliases: ['carrier'] }),
  for: typed(80).meta({ suggest: 'people' }),
  weed: typed(80).meta({ suggest: 'weeds' }),
  in_tank: typed().meta({ aliases: ['leftover'] }),
  in_tank_output: typed(),
  in_tank_rate: typed(),
  scale: typed(),
  line: typed(40),
  season: Season.optional(),
  treatment: z.enum(['first', 'repeat']).optional(),
  spots: Spots.optional(),
  dormant: z.boolean().optional(),
  mowings: z.int().min(0).max(200).optional(),
  adjuvant: typed(),
  strength: typed(),
  temperature: typed(60),
  /** How near open water, a drain or a well is: `40 ft`, or `none`. */
  water: typed(60),
})
export type MixOptions = z.infer<typeof MixOptions>
