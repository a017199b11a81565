import { z } from 'zod'
import { Text } from '#src/conversation/text.ts'

/** Words in a picture: a sentence of the catalogue, or what somebody typed, which is shown as it is. */
export const PictureWords = z.union([z.string().max(400), Text])
export type PictureWords = z.infer<typeof PictureWords>

/** A decimal number as text, not negative. */
export const Decimal = z.string().regex(/^\d{1,9}(\.\d{1,12})?$/, 'a decimal number like 18500 or 0.226')

/** A plain date. */
export const Day = z.iso.date()
