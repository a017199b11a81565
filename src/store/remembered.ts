import type { z } from 'zod'
import { BoundedMap } from '#src/memory/bounded-map.ts'

/** Per kind: the settings, places and sprayers that some hundred crews ask for again and again. */
const MOST = 1000
/** What is longer is seldom asked for twice. */
const LONGEST = 8000

/**
 * Reads JSON that the store itself has written, each text once. What it gives back is frozen, since several requests
 * hold the same. @throws ZodError for what another program has put there
 */
export function remembered<T>(schema: z.ZodType<T>): (text: string) => T {
  const known = new BoundedMap<string, T>(MOST)
  return (text) => {
    const before = known.get(text)
    if (before !== undefined) return before
    const read = frozen(schema.parse(JSON.parse(text)))
    if (text.length <= LONGEST) known.set(text, read)
    return read
  }
}

function frozen<T>(value: T): T {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return value
  Object.values(value).forEach(frozen)
  return Object.freeze(value)
}
