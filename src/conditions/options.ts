import { z } from 'zod'
import { inversionSigns, windTargets } from '#src/weather/readings.ts'

const typed = (most = 80) => z.string().min(1).max(most).optional()
const days = z.int().min(0).max(60).optional()

/** The day as somebody reads it off a meter and sees it. What nobody knows is left out. */
export const ConditionsOptions = z.strictObject({
  product: typed().meta({ suggest: 'products' }),
  wind: typed(),
  gust: typed(),
  toward: z.enum(windTargets).optional(),
  temperature: typed(),
  humidity: typed(),
  forecast_high: typed(),
  rain_in: z.number().min(0).max(240).optional(),
  sign: z.enum([...inversionSigns, 'none']).optional(),
  droplets: typed(40),
  drought: z.boolean().optional(),
  greening_up: z.boolean().optional(),
  dormant: z.boolean().optional(),
  new_grass: z.boolean().optional(),
  soaked: z.boolean().optional(),
  mown: days,
  mow_in: days,
  clothing: z.enum(['work clothes', 'coveralls', 'chemical-resistant suit']).optional(),
})
export type ConditionsOptions = z.infer<typeof ConditionsOptions>
