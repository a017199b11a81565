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
  const values = value as Readonly<Record<string, unknown>>
  let parts = ''
  for (const key of inOrder(Object.keys(value))) {
    const inner = values[key]
    if (inner !== undefined)
      parts += `${parts === '' ? '' : ','}${JSON.stringify(key)}:${canonicalJson(inner)}`
  }
  return `{${parts}}`
}

/** Names in the order of their code units. What was kept stands in this order already. */
export function inOrder(names: string[]): readonly string[] {
  for (let at = 1; at < names.length; at += 1)
    if ((names[at - 1] ?? '') > (names[at] ?? '')) return names.sort()
  return names
}

/** Are two plain values the same? */
export function isSame(a: unknown, b: unknown): boolean {
  return a === b || (a !== undefined && b !== undefined && canonicalJson(a) === canonicalJson(b))
}
