import { standingOf } from '#src/notices/standing.ts'
import { type Amendment, amend, sealAmendment } from '#src/record/amend.ts'
import type { Json } from '#src/record/canonical.ts'
import { nextLink } from '#src/record/chain.ts'
import { recorded } from '#src/record/not-recorded.ts'
import type { ApplicationRecord } from '#src/record/record.ts'
import { seal } from '#src/record/seal.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import { record as aRecord, english, saltOf } from '#tests/record/build.ts'

/** Puts a record on the chain and into the rows by which it is found; returns its number. */
export async function keep(
  store: CrewStore,
  parts: Partial<ApplicationRecord> & { readonly personId: number },
): Promise<{ readonly number: number; readonly record: ApplicationRecord }> {
  const { personId, ...given } = parts
  const number = await store.records.nextNumber()
  const record = aRecord({ ...given, number: String(number) })
  const entry = { kind: 'record', sealed: seal(record as unknown as Json, saltOf) } as const
  const link = nextLink(await store.records.head(), entry)
  const linkId = await store.records.append(link, number, record.writtenAt.atMs)
  const names = (recorded(record.products) ?? []).map(({ name }) => name)
  await store.records.create(
    {
      number,
      linkId,
      personId,
      siteId: record.siteId ?? null,
      areaId: record.areaId ?? null,
      mixId: null,
      drawn: null,
      appliedOn: recorded(record.date) ?? null,
      complete: true,
      withinLabel: 'yes',
      late: false,
      treatments: [],
      voidedAtMs: null,
    },
    names,
    record.writtenAt.atMs,
  )
  return { number, record }
}

/** Amends or voids a kept record, and gives it as it stands then. */
export async function change(
  store: CrewStore,
  number: number,
  wanted: { readonly changes?: Readonly<Record<string, unknown>>; readonly voids?: boolean },
): Promise<ApplicationRecord> {
  const standing = await standingOf(store, number)
  if (standing === undefined) throw new Error('No such record')
  const made = amend(standing, {
    number: `${number}-${standing.versions}`,
    at: standing.record.writtenAt,
    by: { name: 'Demo Person Quillfern' },
    why: english('a slip'),
    ...wanted,
  })
  if (!made.ok) throw new Error(JSON.stringify(made.error))
  await append(store, number, made.value)
  const row = await store.records.find(number)
  if (row === undefined) throw new Error('No such row')
  const after = await standingOf(store, number)
  if (after === undefined) throw new Error('The links do not follow')
  const names = (recorded(after.record.products) ?? []).map(({ name }) => name)
  const voidedAtMs = wanted.voids === true ? standing.record.writtenAt.atMs : null
  await store.records.restate(row.id, { ...row, voidedAtMs }, names)
  return after.record
}

async function append(store: CrewStore, number: number, amendment: Amendment): Promise<void> {
  const sealed = sealAmendment(amendment, saltOf)
  await store.records.append(
    nextLink(await store.records.head(), { kind: 'amendment', sealed }),
    number,
    amendment.at.atMs,
  )
}
