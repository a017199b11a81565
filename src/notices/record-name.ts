import { printRecord } from '#src/visits/application.ts'

/** A record as the crew calls it, for a sentence. */
export function recordName(number: number): { readonly literal: string } {
  return { literal: printRecord(number) }
}
