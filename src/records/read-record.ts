import type { Current, Misfit } from '#src/record/amend.ts'
import { Amendment, current } from '#src/record/amend.ts'
import type { Link } from '#src/record/chain.ts'
import { plainReader } from '#src/record/plain-reader.ts'
import { ApplicationRecord } from '#src/record/record.ts'
import { unseal } from '#src/record/seal.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { RecordRow } from '#src/store/records.ts'

/** A record with everything that was written to it since, read back from its links. */
export interface RecordRead {
  readonly kind: 'read'
  readonly row: RecordRow
  /** As it was first written. Personal values stand in their places, or "removed" where they were taken out. */
  readonly original: ApplicationRecord
  /** The oldest first. */
  readonly amendments: readonly Amendment[]
  readonly current: Current
  /** The first amendment that does not follow from what stood before it; `current` stops before it. */
  readonly misfit: Misfit | null
  readonly links: readonly Link[]
}

/** Its links do not hold a record any more: somebody changed the store by hand. A check of the chain says where. */
export interface RecordUnreadable {
  readonly kind: 'unreadable'
  readonly row: RecordRow
  readonly links: readonly Link[]
}

export type RecordFound = RecordRead | RecordUnreadable

/**
 * One record with all amendments.
 * @returns undefined when this crew has no record of this number
 */
export async function readRecord(store: CrewStore, number: number): Promise<RecordFound | undefined> {
  const row = await store.records.find(number)
  return row === undefined ? undefined : recordOfLinks(row, await store.records.linksOf(number))
}

/**
 * Many records at once, in the order of their rows.
 * @param upToSeq number of a link: amendments that came after it are left out
 */
export async function readRecords(
  store: CrewStore,
  rows: readonly RecordRow[],
  upToSeq?: number,
): Promise<readonly RecordFound[]> {
  return rows.map(await recordReader(store, rows, upToSeq))
}

/** The same, each put together when it is asked for: what was fetched for all of them is little beside one. */
export async function recordReader(
  store: CrewStore,
  rows: readonly RecordRow[],
  upToSeq?: number,
): Promise<(row: RecordRow) => RecordFound> {
  const linksOf = await store.records.linksOfAll(
    rows.map(({ number }) => number),
    upToSeq,
  )
  return (row) => recordOfLinks(row, linksOf(row.number))
}

/** One record whose links all follow from one another; undefined where there is none, or where they do not. */
export async function readSound(store: CrewStore, number: number): Promise<RecordRead | undefined> {
  const found = await readRecord(store, number)
  return found !== undefined && isSound(found) ? found : undefined
}

/** Does every link follow from what stood before it? Nothing is built on a record that somebody changed by hand. */
export function isSound(found: RecordFound): found is RecordRead {
  return found.kind === 'read' && found.misfit === null
}

const asRecord = plainReader(ApplicationRecord)
const asAmendment = plainReader(Amendment)

function recordOfLinks(row: RecordRow, links: readonly Link[]): RecordFound {
  const [first, ...later] = links
  if (first?.entry.kind !== 'record') return { kind: 'unreadable', row, links }
  const original = asRecord(unseal(first.entry.sealed))
  const amendments = later.flatMap(({ entry }) => asAmendment(unseal(entry.sealed)) ?? [])
  if (original === undefined || amendments.length < later.length) return { kind: 'unreadable', row, links }
  return { kind: 'read', row, original, amendments, links, ...standing(original, amendments) }
}

function standing(
  original: ApplicationRecord,
  amendments: readonly Amendment[],
): Pick<RecordRead, 'current' | 'misfit'> {
  const whole = current(original, amendments)
  if (whole.ok) return { current: whole.value, misfit: null }
  const at = amendments.findIndex(({ number }) => number === whole.error.amendment)
  return { ...standing(original, amendments.slice(0, Math.max(at, 0))), misfit: whole.error }
}
