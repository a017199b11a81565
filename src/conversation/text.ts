import { z } from 'zod'

/** A value inside a sentence. Plain data, so that the same sentence can be said in any language, at any time. */
export type Param =
  | string
  | number
  | { readonly value: string; readonly unit: string }
  | { readonly atMs: number; readonly zone: string; readonly style: 'date' | 'time' | 'date-time' }
  | { readonly day: string }
  | { readonly all: readonly Param[]; readonly join?: 'and' | 'or' | 'lines' }
  | { readonly literal: string }
  | Text

/**
 * A sentence by its id in the catalogue. A plain string parameter is what somebody typed: it is escaped by every
 * messenger. `literal` is text of our own that may not be escaped (a typed command to copy).
 */
export interface Text {
  readonly say: string
  readonly with?: Readonly<Record<string, Param>>
}

export const Param: z.ZodType<Param> = z.lazy(() =>
  z.union([
    z.string(),
    z.number(),
    z.strictObject({ value: z.string(), unit: z.string() }),
    z.strictObject({ atMs: z.number(), zone: z.string(), style: z.enum(['date', 'time', 'date-time']) }),
    z.strictObject({ day: z.string() }),
    z.strictObject({ all: z.array(Param), join: z.enum(['and', 'or', 'lines']).exactOptional() }),
    z.strictObject({ literal: z.string() }),
    Text,
  ]),
)

export const Text: z.ZodType<Text> = z.lazy(() =>
  z.strictObject({ say: z.string(), with: z.record(z.string(), Param).exactOptional() }),
)

/** `say('mix.fill-to', { volume })`: a sentence by its id. */
export function say(id: string, parameters?: Readonly<Record<string, Param>>): Text {
  return parameters === undefined ? { say: id } : { say: id, with: parameters }
}

/** What somebody typed, as a sentence of its own. */
export function asTyped(words: string): Text {
  return say('words.as-typed', { words })
}

/** Text of our own that stands for itself in every language: a code, a command to copy. */
export function literalText(literal: string): Text {
  return say('words.as-typed', { words: { literal } })
}
