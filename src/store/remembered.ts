import type { z } from 'zod'
import { BoundedMap } from '#src/memory/bounded-map.ts'

/** Per kind: the settings, places and sprayers that some hundred crews ask for again and again. */
const MOST = 1000
/** What is longer is seldom asked for twice. */
const LONGEST = 8000

/**
 * Reads JSON that the store itself has written, each text once. What it gives back is frozen, since several requests
 * hold the same.
 * @param bounds how many are known at most, and up to what length
 * @throws ZodError for what another program has put there
 */
export function remembered<T>(
  schema: z.ZodType<T>,
  bounds: { readonly most: number; readonly longest: number } = { most: MOST, longest: LONGEST },
): (text: string) => T {
  return readerAndWriter(schema, bounds.most, bounds.longest).read
}

/**
 * The same for what is read soon after it was written, a step of a conversation for instance: what this process wrote
 * is not held against the schema once more.
 */
export function readerAndWriter<T>(schema: z.ZodType<T>, most: number, longest = LONGEST) {
  const known = new BoundedMap<string, T>(most)
  const learn = (text: string, value: T): T => {
    frozen(value)
    if (text.length <= longest) known.set(text, value)
    return value
  }
  return {
    read: (text: string): T => known.get(text) ?? learn(text, schema.parse(JSON.parse(text))),
    write(value: T): string {
      const text = JSON.stringify(value)
      // As it will be read, and apart from what the caller holds.
      if (text.length <= longest) learn(text, JSON.parse(text) as T)
      return text
    },
  }
}

function frozen<T>(value: T): T {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return value
  Object.values(value).forEach(frozen)
  return Object.freeze(value)
}
