import { z } from 'zod'
import { inversionSigns, windTargets } from '#src/weather/readings.ts'

const typed = (most = 80) => z.string().min(1).max(most).optional()
const days = z.int().min(0).max(60).optional()
const hours = z.number().min(0).max(240).optional()

export const compass = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'] as const

/** The day as somebody reads it off a meter and sees it. What nobody knows is left out. */
export const ConditionsOptions = z.strictObject({
  product: typed().meta({ suggest: 'products' }),
  site: typed().meta({ suggest: 'sites' }),
  area: typed().meta({ suggest: 'areas' }),
  wind: typed(),
  gust: typed(),
  wind_from: z.enum(compass).optional(),
  toward: z.enum(windTargets).optional(),
  temperature: typed(),
  humidity: typed(),
  forecast_high: typed(),
  rain_in: hours,
  sky: z.enum(['clear', 'some clouds', 'overcast']).optional(),
  sun: z.enum(['just up', 'high', 'going down', 'down']).optional(),
  sign: z.enum([...inversionSigns, 'none']).optional(),
  droplets: typed(40),
  drought: z.boolean().optional(),
  greening_up: z.boolean().optional(),
  dormant: z.boolean().optional(),
  new_grass: z.boolean().optional(),
  /** How the ground is, or who is on it or beside it. */
  ground: z.enum(['soaked', 'frozen or snow', 'people on it', 'pets on it', 'school or day care']).optional(),
  roots: z.boolean().optional(),
  mown: days,
  mow_in: days,
  water_in: hours,
  /** What is worn, or what is not at hand of the label’s gear and of the water to wash with. */
  clothing: z
    .enum(['work clothes', 'coveralls', 'chemical-resistant suit', 'gear missing', 'no wash water'])
    .optional(),
})
export type ConditionsOptions = z.infer<typeof ConditionsOptions>

/** What presses have added: signs of still air that were looked for, and what the label says on roots. */
export const ConditionsState = z.strictObject({
  ...ConditionsOptions.shape,
  '@signs': z.partialRecord(z.enum(inversionSigns), z.boolean()).optional(),
  '@roots': z.enum(['allowed', 'forbidden']).optional(),
})
export type ConditionsState = z.infer<typeof ConditionsState>
