/** A record as the crew calls it. */
export function recordName(number: number): { readonly literal: string } {
  return { literal: `R${number}` }
}
