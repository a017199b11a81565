import type { Amendment } from '#src/record/amend.ts'
import { sealAmendment } from '#src/record/amend.ts'
import type { Json } from '#src/record/canonical.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { amendmentName, recordName } from '#src/record/number.ts'
import type { ApplicationRecord } from '#src/record/record.ts'
import { seal } from '#src/record/seal.ts'
import { keepLink } from '#src/records/keep-link.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { RecordRow } from '#src/store/records.ts'
import { at, english, record, saltOf } from '#tests/record/build.ts'
import { NOON_MS } from './asks.ts'

interface KeepParts {
  readonly personId: number
  /** Values of the record that differ from the invented one, which lacks nothing. */
  readonly record?: Partial<ApplicationRecord>
  /** How it stands, where that differs from {@link STANDING}. */
  readonly row?: Partial<Omit<RecordRow, 'id' | 'number' | 'linkId' | 'personId' | 'createdAtMs'>>
  readonly atMs?: number
}

/** A complete record within its label, of no place in particular. */
export const STANDING = {
  siteId: null,
  areaId: null,
  mixId: null,
  drawn: null,
  appliedOn: '2025-06-30',
  complete: true,
  withinLabel: 'yes',
  late: false,
  treatments: [],
  voidedAtMs: null,
} as const

/** Keeps a record as the next of its crew: sealed, in the chain, and found by its row. Returns its number. */
export async function keepRecord(store: CrewStore, parts: KeepParts): Promise<number> {
  const { atMs = NOON_MS } = parts
  const number = await store.records.nextNumber()
  const made = record({ ...parts.record, number: recordName(number) })
  const sealed = seal(made as unknown as Json, saltOf)
  const linkId = await keepLink(store, number, { kind: 'record', sealed }, atMs)
  const row = {
    ...STANDING,
    siteId: made.siteId ?? null,
    areaId: made.areaId ?? null,
    appliedOn: recorded(made.date) ?? null,
    ...parts.row,
  }
  const products = (recorded(made.products) ?? []).map(({ name }) => name)
  await store.records.create({ ...row, number, linkId, personId: parts.personId }, products, atMs)
  return number
}

/** Writes an amendment to a kept record: by default a county that was typed wrong. */
export async function keepAmendment(
  store: CrewStore,
  number: number,
  parts: Partial<Amendment> = {},
): Promise<void> {
  const sealed = sealAmendment(
    {
      number: amendmentName(number, 1),
      record: recordName(number),
      at: at('2025-07-01 08:00'),
      by: { name: 'Demo Person Quillfern' },
      why: english('typed the wrong county'),
      voids: false,
      changes: [{ field: 'county', before: 'Demo County', after: 'Other County' }],
      ...parts,
    },
    saltOf,
  )
  await keepLink(store, number, { kind: 'amendment', sealed }, NOON_MS)
}
