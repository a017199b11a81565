import { z } from 'zod'
import { Outcome } from '#src/conversation/reply.ts'
import type { Verdict } from '#src/label/verdict.ts'
import { ShortText } from './values.ts'

/** What the label said to one product when the record was written: outcome, and the ids of what stood against it. */
export const LabelCheck = z
  .array(
    z.strictObject({
      product: ShortText,
      outcome: Outcome,
      reasons: z.array(z.strictObject({ id: ShortText, outcome: Outcome })).max(60),
      /** A hold that a licensed lead lifted beforehand. */
      lifted: z.boolean().exactOptional(),
    }),
  )
  .max(6)
export type LabelCheck = z.infer<typeof LabelCheck>

/** The verdict in the form that a record keeps: only what weighs more than a plain answer. */
export function labelCheckOf(product: string, { outcome, reasons }: Verdict): LabelCheck[number] {
  const standing = reasons.filter((reason) => reason.outcome !== 'answer')
  return { product, outcome, reasons: standing.map((reason) => ({ id: reason.id, outcome: reason.outcome })) }
}
