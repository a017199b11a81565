import { z } from 'zod'
import { PlainDay } from '#src/label/day.ts'
import { Form } from '#src/label/entry.ts'
import { Decimal, quantityOf, Rate } from '#src/quantity/rate.ts'
import { amountUnits } from '#src/quantity/units.ts'
import { maybe } from './not-recorded.ts'
import { ShortText } from './values.ts'

/** What the label said that was in force then, so that it can still be found after the label has changed. */
export const LabelRead = z.strictObject({
  version: ShortText,
  date: PlainDay,
  page: ShortText.exactOptional(),
  /** Does it give hours before people may enter? */
  entryInterval: z.boolean().exactOptional(),
})

/** One active ingredient as the ingredient statement gives it, with its percent where that is how it is stated. */
export const RecordedActive = z.strictObject({
  name: ShortText,
  strength: ShortText,
  percent: Decimal.exactOptional(),
})

export const Amount = quantityOf(amountUnits)
export type Amount = z.infer<typeof Amount>

/** One product of the tank: what it is, by which label, and how much of it went on this ground. */
export const ProductUsed = z.strictObject({
  name: ShortText,
  entryId: z.int().exactOptional(),
  revisionId: z.int().exactOptional(),
  /** Id of the rate line that was used. */
  line: ShortText.exactOptional(),
  form: maybe(Form),
  /** The federal number as on the label. */
  registration: maybe(ShortText),
  /** A minimum-risk product has no federal number. */
  exempt25b: z.literal(true).exactOptional(),
  stateNumber: maybe(ShortText),
  specialLocalNeed: maybe(ShortText),
  restricted: maybe(z.boolean()),
  label: maybe(LabelRead),
  actives: maybe(z.array(RecordedActive).min(1).max(6)),
  /** The rate that was meant, in the label's unit. */
  rate: maybe(Rate),
  /** The product as it comes that went on this ground: never the mix, never the active ingredient. */
  amount: maybe(Amount),
})
export type ProductUsed = z.infer<typeof ProductUsed>
