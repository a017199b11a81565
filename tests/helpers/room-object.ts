import { z } from 'zod'
import { Outcome } from '#src/conversation/reply.ts'

const Field = z.strictObject({
  name: z.string(),
  kind: z.enum(['text', 'long-text', 'choice', 'choices', 'file']),
  label: z.string().min(1),
  hint: z.string().nullable(),
  required: z.boolean(),
  value: z.string().nullable(),
  options: z.array(z.strictObject({ value: z.string(), label: z.string() })),
})

/** One line that the room writes, exactly: scripts rely on its shape. */
export const RoomLine = z.strictObject({
  outcome: Outcome,
  title: z.string().min(1),
  text: z.string().min(1),
  facts: z.record(
    z.string(),
    z.strictObject({
      value: z.union([z.string(), z.number(), z.boolean()]),
      unit: z.string().nullable(),
      text: z.string().min(1),
    }),
  ),
  working: z.array(z.string()),
  safety: z.array(z.strictObject({ id: z.string(), text: z.string().min(1) })).min(1),
  number: z
    .string()
    .regex(/^[1-9]\d*$/)
    .nullable(),
  choices: z.array(z.strictObject({ n: z.int().positive(), label: z.string().min(1) })),
  form: z.strictObject({ title: z.string().min(1), fields: z.array(Field).min(1).max(5) }).nullable(),
  files: z.array(
    z.strictObject({ name: z.string(), type: z.string(), bytes: z.int().positive(), path: z.string() }),
  ),
})
export type RoomLine = z.infer<typeof RoomLine>
