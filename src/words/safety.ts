import { z } from 'zod'

/** What a reply can be about. `general` lines fit everywhere. */
export const Topic = z.enum([
  'emergency',
  'measuring',
  'mixing',
  'spraying',
  'wind',
  'heat',
  'rain',
  'water',
  'bystanders',
  'cleanup',
  'leftover',
  'identification',
  'recheck',
  'records',
  'general',
])
export type Topic = z.infer<typeof Topic>

/** How far a translation may be trusted. */
export const TranslationState = z.enum(['published bilingual source', 'awaits a native reader'])
export type TranslationState = z.infer<typeof TranslationState>

/** One safety line. Its words are message `safety.<id>`, in every language in the same place as all other words. */
export const SafetyLine = z.strictObject({
  id: z.string().regex(/^[a-z]+\.[a-z0-9-]+$/),
  about: z.array(Topic).min(1),
  /** Who says so, spelled out with its address; or `common practice, no source`; or `from memory`. */
  source: z.string().min(8),
  spanish: TranslationState,
})
export type SafetyLine = z.infer<typeof SafetyLine>

export const SafetyLines = z
  .array(SafetyLine)
  .min(1)
  .refine((lines) => new Set(lines.map((line) => line.id)).size === lines.length, 'two lines share an id')
  .refine(
    (lines) => Topic.options.every((topic) => lines.some((line) => line.about.includes(topic))),
    'a topic has no line',
  )
export type SafetyLines = z.infer<typeof SafetyLines>

/** The small line under every answer: message id. */
export const STANDING_LINE = 'common.standing'

/** The message that holds the words of a line. */
export function safetyWords(id: string): string {
  return `safety.${id}`
}
