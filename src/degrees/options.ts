import { z } from 'zod'

const typed = (most = 40) => z.string().min(1).max(most).optional()

/** Most that one message holds: about ten months, a day a line. */
export const LONGEST_PASTE = 4000

/** Daily temperatures and how they are counted. A total means nothing without its method, base and first day. */
export const DegreesOptions = z.strictObject({
  temperatures: typed(LONGEST_PASTE),
  method: z.enum(['average', 'capped', 'sine']).optional(),
  base: typed(),
  cap: typed(),
  start: typed(),
  unit: z.enum(['F', 'C']).optional(),
})
export type DegreesOptions = z.infer<typeof DegreesOptions>
