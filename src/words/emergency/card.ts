import { z } from 'zod'
import { TranslationState } from '../safety.ts'

/** Who is called. The words are message `emergency.<id>` with the parameter `number`. */
export const EmergencyNumber = z.strictObject({
  id: z.string(),
  number: z.string().regex(/^(911|1-\d{3}-\d{3}-\d{4})$/),
  /** Comes first on the card for these kinds of trouble. */
  for: z.array(z.enum(['life', 'exposure', 'questions', 'spill'])).min(1),
  /** When somebody answers; absent means day and night. */
  hours: z
    .strictObject({
      days: z.literal('mon-fri'),
      from: z.string().regex(/^\d\d:\d\d$/),
      to: z.string().regex(/^\d\d:\d\d$/),
      zone: z.string(),
    })
    .exactOptional(),
  source: z.string().min(8),
  spanish: TranslationState,
})
export type EmergencyNumber = z.infer<typeof EmergencyNumber>

/** One thing to do, when no label says otherwise. The words are message `emergency.<id>`. */
export const FirstAidStep = z.strictObject({
  id: z.string(),
  route: z.enum(['first', 'eye', 'skin', 'breathed', 'swallowed', 'heat', 'take-along', 'spill']),
  source: z.string().min(8),
  spanish: TranslationState,
})
export type FirstAidStep = z.infer<typeof FirstAidStep>

/** What `/emergency` shows, in its order. The product's own first aid text stands before these steps. */
export const EmergencyCard = z.strictObject({
  numbers: z.array(EmergencyNumber).min(2),
  steps: z.array(FirstAidStep).min(1),
})
export type EmergencyCard = z.infer<typeof EmergencyCard>
