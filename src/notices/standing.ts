import { Amendment, type Current, current } from '#src/record/amend.ts'
import type { Link } from '#src/record/chain.ts'
import { ApplicationRecord } from '#src/record/record.ts'
import { unseal } from '#src/record/seal.ts'
import type { CrewStore } from '#src/store/crew-store.ts'

/** A record as it stands after its amendments, with its versions counted: the record itself is the first. */
export interface Standing extends Current {
  readonly versions: number
}

/** The record of that number as it stands; undefined for one that does not exist, or whose links do not follow. */
export async function standingOf(
  store: CrewStore,
  recordNumber: number,
  upToSeq?: number,
): Promise<Standing | undefined> {
  return fold(await store.records.linksOf(recordNumber, upToSeq))
}

/** The record that its links make. */
export function fold(links: readonly Link[]): Standing | undefined {
  const [first, ...others] = links
  if (first === undefined || first.entry.kind !== 'record') return undefined
  const record = ApplicationRecord.safeParse(unseal(first.entry.sealed))
  if (!record.success) return undefined
  const amendments = others.flatMap(({ entry }) => {
    const read = Amendment.safeParse(unseal(entry.sealed))
    return read.success ? [read.data] : []
  })
  const stands = current(record.data, amendments)
  return stands.ok ? { ...stands.value, versions: links.length } : undefined
}
