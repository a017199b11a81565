/** Plain data that a record is made of. */
export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json }

/**
 * The one way to write plain data as JSON: keys in the order of their code units, no blanks, nothing left out but what
 * is undefined. Two equal values always give the same text, two different ones never do.
 * @throws RangeError for a number that is not whole, since numbers that matter are decimal texts
 */
export function canonicalJson(value: unknown): string {
  if (typeof value === 'number' && !Number.isSafeInteger(value))
    throw new RangeError(`Cannot write the number ${value}: only whole numbers and decimal texts are kept`)
  if (typeof value !== 'object' || value === null) return JSON.stringify(value)
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`
  const entries = Object.entries(value)
    .filter(([, inner]) => inner !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0))
  return `{${entries.map(([key, inner]) => `${JSON.stringify(key)}:${canonicalJson(inner)}`).join(',')}}`
}

/** Are two plain values the same? */
export function isSame(a: unknown, b: unknown): boolean {
  return a === b || (a !== undefined && b !== undefined && canonicalJson(a) === canonicalJson(b))
}
