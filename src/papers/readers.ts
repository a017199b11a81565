import type { Amendment } from '#src/record/amend.ts'
import type { Json } from '#src/record/canonical.ts'
import type { FieldId } from '#src/record/record.ts'
import { fieldIds } from '#src/record/record.ts'
import type { RecordRead } from '#src/records/read-record.ts'
import type { Hide } from '#src/records/withhold.ts'
import { hidden, WITHHELD } from '#src/records/withhold.ts'
import type { Reader } from './order.ts'

/**
 * What a customer reads: their own job, what went on, by whom, and what to mind. Not the tank, whose leftover and order
 * of sites tell of other customers; not what the crew wrote for itself.
 */
const CUSTOMER: readonly FieldId[] = [
  'date',
  'startedAt',
  'endedAt',
  'customerName',
  'customerAddress',
  'placeAddress',
  'county',
  'placeWords',
  'use',
  'turfs',
  'treatedArea',
  'areaBasis',
  'coverage',
  'targets',
  'products',
  'fertilizer',
  'method',
  'carrier',
  'carrierAmount',
  'totalMix',
  'adjuvants',
  'windSpeed',
  'windFrom',
  'temperature',
  'humidityPercent',
  'sky',
  'rain',
  'applicator',
  'license',
  'supervisor',
  'company',
  'companyLicense',
  'companyAddress',
  'keepOff',
  'keepOffUntil',
  'posting',
  'notices',
  'customerCopy',
  'recheckOn',
]

/** What somebody needs who treats a person: what it was, how much, when, how. Nobody's name and nobody's address. */
const TREATING: readonly FieldId[] = [
  'date',
  'startedAt',
  'endedAt',
  'treatedArea',
  'products',
  'method',
  'carrier',
  'carrierAmount',
  'totalMix',
  'adjuvants',
  'ppe',
  'keepOff',
  'keepOffUntil',
]

const FIELDS: Readonly<Record<Reader, readonly FieldId[]>> = {
  inspector: fieldIds,
  customer: CUSTOMER,
  treating: TREATING,
}

/** Fields of a record that a reader gets, in the order in which they are printed. */
export function fieldsFor(reader: Reader): readonly FieldId[] {
  return FIELDS[reader]
}

/** What every reader gets of what only the store writes. */
const FIXED = ['number', 'writtenAt']

/** A record written for the wrong customer and then put right holds that other customer: what stood before stays out. */
const ABOUT_CUSTOMER: readonly FieldId[] = [
  'customerName',
  'customerAddress',
  'placeAddress',
  'placeWords',
  'county',
  'notices',
  'customerCopy',
]

/** A record as one reader gets it. */
export function recordFor(reader: Reader, found: RecordRead): RecordRead {
  if (reader === 'inspector') return found
  const fields = new Set<string>([...fieldsFor(reader), ...FIXED])
  const kept = hidden(found, (field, value) => (fields.has(field) ? hideSupervisor(field, value) : WITHHELD))
  return {
    ...kept,
    original: reader === 'customer' ? withoutOthers(kept.original) : kept.original,
    amendments: kept.amendments.filter(isSeen(fields)).map((one) => ({
      ...one,
      // Why something was amended is written for the crew, and often names others.
      why: { removed: true as const },
      ...(reader === 'treating' ? { by: { removed: true as const } } : {}),
      changes: one.changes
        .filter(({ field }) => fields.has(field))
        .map((change) =>
          ABOUT_CUSTOMER.includes(change.field) ? { ...change, before: WITHHELD as unknown as Json } : change,
        ),
    })),
  }
}

/** An amendment of nothing that a reader gets is none of their business. */
const isSeen = (fields: ReadonlySet<string>) => (one: Amendment) =>
  one.voids || one.changes.some(({ field }) => fields.has(field))

/** Of licenses a customer reads that of who did the job, since states ask for it, and nobody else's. */
const hideSupervisor: Hide = (field, value) =>
  field === 'supervisor' && typeof value === 'object' && value !== null && 'license' in value
    ? { ...value, license: WITHHELD }
    : value

function withoutOthers(record: RecordRead['original']): RecordRead['original'] {
  const entries = Object.entries(record).map(([field, value]) =>
    ABOUT_CUSTOMER.includes(field as FieldId) ? [field, WITHHELD] : [field, value],
  )
  return Object.fromEntries(entries) as RecordRead['original']
}
