import { z } from 'zod'

/** What happened, the most serious first. */
export const EmergencyKind = z.enum(['exposure', 'illness', 'spill'])
export type EmergencyKind = z.infer<typeof EmergencyKind>

const Word = z.string().regex(/^[a-z0-9]+$/, 'a word is lower case, without accents or apostrophes')
const Pattern = z.string().min(1)

/**
 * The emergency words of one language. Files of all languages work together, since one sentence often mixes two.
 * Patterns are written in the small language of `pattern.ts`.
 */
export const EmergencyWords = z.strictObject({
  /** Groups of words: `@eye` in a pattern stands for each word of the group. */
  groups: z.record(z.string().regex(/^[a-z-]+$/), z.array(Word).min(1)),
  /** What people say of a person who is hurt. */
  alarms: z.record(EmergencyKind, z.array(Pattern)),
  /** Sentences of labels, as they are typed into the label book: taken out before anything is looked for. */
  printed: z.array(Pattern),
  /** Read before `calm`: sure whatever stands around. */
  sure: z.partialRecord(EmergencyKind, z.array(Pattern)).exactOptional(),
  /** Plants, tools, labels and sayings that use the same words: taken out before alarms are looked for. */
  calm: z.array(Pattern),
  /** Ordinary words that are one slip away from a word of alarm, and are no slip. */
  ordinary: z.array(Word),
})
export type EmergencyWords = z.infer<typeof EmergencyWords>
