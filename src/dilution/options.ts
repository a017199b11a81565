import { z } from 'zod'

const typed = z.string().min(1).max(500)

export const DiluteOptions = z.strictObject({
  amount: typed.optional(),
  wanted: typed.optional(),
  strength: typed.optional(),
  form: z.enum(['powder', 'liquid']).optional(),
  added: typed.optional(),
})
export type DiluteOptions = z.infer<typeof DiluteOptions>
