import { Amendment } from '#src/record/amend.ts'
import { ApplicationRecord } from '#src/record/record.ts'
import { unseal } from '#src/record/seal.ts'
import type { CrewStore } from '#src/store/crew-store.ts'

export interface KeptRecord {
  readonly record: ApplicationRecord
  readonly amendments: readonly Amendment[]
}

/** A record and its amendments as they were kept, the oldest first; null for a number that nothing has. */
export async function readKept(number: number, store: CrewStore): Promise<KeptRecord | null> {
  const [first, ...rest] = await store.records.linksOf(number)
  if (first === undefined) return null
  return {
    record: ApplicationRecord.parse(unseal(first.entry.sealed)),
    amendments: rest.map(({ entry }) => Amendment.parse(unseal(entry.sealed))),
  }
}
