import type { Dimension } from './units.ts'

/** What may be expected of a typed text, for the sentence that explains what would be right. */
export type Expected = Dimension | 'rate' | 'rate-form' | 'output' | 'strength' | 'density' | 'fill'

/** Everything that can be wrong with a typed quantity. Each kind has its sentence: id `quantity.<kind>`. */
export type QuantityProblem =
  | { readonly kind: 'empty'; readonly expected: Expected }
  | { readonly kind: 'too-long'; readonly limit: number }
  | { readonly kind: 'no-number'; readonly text: string; readonly expected: Expected }
  | { readonly kind: 'not-a-number'; readonly text: string }
  | { readonly kind: 'too-many-digits'; readonly text: string }
  | { readonly kind: 'ambiguous-number'; readonly text: string; readonly readings: readonly [string, string] }
  | { readonly kind: 'range'; readonly text: string }
  | { readonly kind: 'negative'; readonly text: string }
  | { readonly kind: 'zero'; readonly text: string }
  | { readonly kind: 'absurd'; readonly text: string; readonly limit: string }
  | { readonly kind: 'no-unit'; readonly text: string; readonly expected: Expected }
  | { readonly kind: 'unknown-unit'; readonly text: string; readonly suggestion: string | undefined }
  | { readonly kind: 'wrong-dimension'; readonly text: string; readonly expected: Expected }
  | { readonly kind: 'ambiguous-ounce'; readonly text: string; readonly value: string }
  | { readonly kind: 'ambiguous-percent'; readonly text: string; readonly value: string }
  | { readonly kind: 'imperial'; readonly text: string }
  | { readonly kind: 'm-for-thousand'; readonly text: string; readonly suggestion: string }
  | { readonly kind: 'no-per'; readonly text: string }
  | { readonly kind: 'not-plain'; readonly text: string; readonly expected: Expected }
  | { readonly kind: 'trailing'; readonly text: string; readonly rest: string }
  | { readonly kind: 'over-full'; readonly text: string }

/** A message id of the catalogue with what goes into its sentence. */
export interface Message {
  readonly id: string
  readonly parameters: Readonly<Record<string, string | number>>
}

/** The sentence for a problem: plain strings and numbers only, ready for the catalogue. */
export function quantityMessage(problem: QuantityProblem): Message {
  const parameters: Record<string, string | number> = {}
  for (const [name, value] of Object.entries(problem)) {
    if (name === 'kind') continue
    if (Array.isArray(value))
      for (const [index, item] of value.entries()) parameters[`${name}${index + 1}`] = String(item)
    else parameters[name] = typeof value === 'number' ? value : String(value ?? 'none')
  }
  return { id: `quantity.${problem.kind}`, parameters }
}
