import { z } from 'zod'
import { WalkBody } from '#src/store/walks.ts'
import { KeyOptions } from './options.ts'

/** A walk as it stands: `id` and `number` are null when the store could not be written. */
export const Live = z.strictObject({
  id: z.int().nullable(),
  number: z.int().nullable(),
  body: WalkBody,
})
export type Live = z.infer<typeof Live>

/**
 * What a turn of the key keeps. `asking`: a name was not clear, and the line is read again with the answer. Messages
 * that came unasked keep nothing; their buttons name the walk.
 */
export const State = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('asking'), given: KeyOptions }),
    z.strictObject({ kind: z.literal('walk'), walk: Live }),
  ])
  .nullable()
export type State = z.infer<typeof State>
