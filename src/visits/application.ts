import type { Tools } from '#src/desk/command.ts'
import type { Day } from '#src/label/day.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { taxonById, taxonByName } from '#src/plants.ts'
import { recorded } from '#src/record/not-recorded.ts'
import type { ProductUsed } from '#src/record/product.ts'
import type { ApplicationRecord } from '#src/record/record.ts'
import { type RecordFound, readRecord } from '#src/records/read-record.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { RecordRow } from '#src/store/records.ts'
import type { Area, Site } from '#src/store/sites.ts'

/** One kept application as it stands now, with the place and the products that looks at it depend on. */
export interface Application {
  readonly row: RecordRow
  readonly record: ApplicationRecord
  readonly treatedOn: Day
  readonly site: Site | null
  readonly area: Area | null
  readonly products: readonly AppliedProduct[]
  readonly weeds: readonly Weed[]
}

export interface AppliedProduct {
  readonly used: ProductUsed
  /** The label as it was in force then; undefined when the book does not know the product. */
  readonly entry: LabelEntry | undefined
}

export interface Weed {
  readonly words: string
  /** The plant of the key, where the words mean one. */
  readonly taxon: string | null
}

export type ApplicationProblem = 'unknown' | 'voided' | 'no-day'

/** Finds an application by its record number; or says why nothing can be looked at. */
export async function findApplication(
  number: number,
  { store }: Pick<Tools, 'store'>,
): Promise<Application | ApplicationProblem> {
  const row = await store.records.find(number)
  if (row === undefined) return 'unknown'
  if (row.voidedAtMs !== null) return 'voided'
  const record = asItStands(await readRecord(store, number))
  if (record === null) return 'voided'
  const treatedOn = row.appliedOn ?? recorded(record.date)
  if (treatedOn === undefined) return 'no-day'
  const site = row.siteId === null ? undefined : await store.sites.get(row.siteId)
  const area = row.areaId === null ? undefined : await store.sites.getArea(row.areaId)
  return {
    row,
    record,
    treatedOn,
    site: site ?? null,
    area: area ?? null,
    products: await productsOf(record, store),
    weeds: weedsOf(record),
  }
}

/** What the chain says of a record after its amendments; null for one that was voided or cannot be read. */
export function asItStands(found: RecordFound | undefined): ApplicationRecord | null {
  if (found?.kind !== 'read' || found.current.voidedBy !== null) return null
  return found.current.record
}

async function productsOf(record: ApplicationRecord, store: CrewStore): Promise<AppliedProduct[]> {
  return Promise.all(
    (recorded(record.products) ?? []).map(async (used) => ({ used, entry: await entryOf(used, store) })),
  )
}

/** The revision that was used; else what the book now says under that name. */
async function entryOf(used: ProductUsed, { labels }: CrewStore): Promise<LabelEntry | undefined> {
  const revision = used.revisionId === undefined ? undefined : await labels.getRevision(used.revisionId)
  return revision?.body ?? (await labels.findByName(used.name))?.live?.body
}

function weedsOf(record: ApplicationRecord): Weed[] {
  return (recorded(record.targets) ?? []).map(({ words, taxon }) => {
    const found = taxon === undefined ? taxonByName(words) : taxonById(taxon)
    return { words, taxon: found?.id ?? null }
  })
}
