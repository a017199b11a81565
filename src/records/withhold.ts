import type { Amendment } from '#src/record/amend.ts'
import type { Json } from '#src/record/canonical.ts'
import type { ApplicationRecord, FieldId } from '#src/record/record.ts'
import type { RecordRead } from './read-record.ts'

/** Stands in the place of what a reader does not get; what the chain says of it is unchanged. */
export const WITHHELD = { withheld: true } as const

/** A record as one reader gets it: some fields hold {@link WITHHELD} instead of a value. */
export type Hide = (field: FieldId, value: Json) => Json

/** The same record with some of its values hidden, wherever they stand: in it, and before and after each amendment. */
export function hidden(found: RecordRead, hide: Hide): RecordRead {
  const { original, current } = found
  const hiddenFirst = hideFields(original, hide)
  // One that nobody amended stands as it was written.
  const record = current.record === original ? hiddenFirst : hideFields(current.record, hide)
  return {
    ...found,
    original: hiddenFirst,
    current: { ...current, record },
    amendments: found.amendments.map((one) => hideIn(one, hide)),
  }
}

/** Without the number of anybody's license: for those of a crew who do not lead it. */
export function withoutLicenses(found: RecordRead): RecordRead {
  return hidden(found, hideLicense)
}

export const hideLicense: Hide = (field, value) => {
  if (field === 'license') return isPart(value, 'number') ? WITHHELD : value
  if (field === 'supervisor' && isPart(value, 'license')) return { ...(value as object), license: WITHHELD }
  return value
}

function hideIn(amendment: Amendment, hide: Hide): Amendment {
  const hideOne = (field: FieldId, value: Json) => (value === null ? value : hide(field, value))
  return {
    ...amendment,
    changes: amendment.changes.map(({ field, before, after }) => ({
      field,
      before: hideOne(field, before),
      after: hideOne(field, after),
    })),
  }
}

function hideFields(record: ApplicationRecord, hide: Hide): ApplicationRecord {
  const entries = Object.entries(record).map(([field, value]) => [
    field,
    hide(field as FieldId, value as Json),
  ])
  // Only for showing: what is hidden no longer has the type of its field, and everything that shows takes any value.
  return Object.fromEntries(entries) as ApplicationRecord
}

function isPart(value: Json, key: string): boolean {
  return typeof value === 'object' && value !== null && key in value
}
