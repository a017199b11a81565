import { z } from 'zod'

const typed = z.string().min(1).max(500)

/** An amount of water, and what a test of it says in ppm. */
export const WaterOptions = z.strictObject({
  amount: typed.optional(),
  calcium: typed.optional(),
  magnesium: typed.optional(),
  sodium: typed.optional(),
  potassium: typed.optional(),
  iron: typed.optional(),
})
export type WaterOptions = z.infer<typeof WaterOptions>
