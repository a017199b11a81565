import { z } from 'zod'
import type { Result } from '#src/quantity/result.ts'
import { fail, ok } from '#src/quantity/result.ts'
import type { Json } from './canonical.ts'
import { isSame } from './canonical.ts'
import { Removed } from './not-recorded.ts'
import { plainReader } from './plain-reader.ts'
import type { ApplicationRecord, FieldId } from './record.ts'
import { fieldIds, isFieldId, isPersonal, schemaOfField } from './record.ts'
import type { NewSalt, Sealed } from './seal.ts'
import { seal } from './seal.ts'
import { linesOf, orderOf } from './text.ts'
import { FreeText, Moment, Person, ShortText } from './values.ts'

const AnyJson: z.ZodType<Json> = z.json()

/** One field as it stood before and stands after; null where nothing stood. */
const Change = z.strictObject({
  field: z.enum(fieldIds as [FieldId, ...FieldId[]]),
  before: AnyJson,
  after: AnyJson,
})
export type Change = z.infer<typeof Change>

/** A change to a kept record: who, when, why, and what stood before. A record is voided by one too. */
export const Amendment = z.strictObject({
  number: ShortText,
  record: ShortText,
  at: Moment,
  by: z.union([Person, Removed]),
  why: z.union([FreeText, Removed]),
  voids: z.boolean(),
  changes: z.array(Change).max(60),
})
export type Amendment = z.infer<typeof Amendment>

/** A record as it stands after its amendments. */
export interface Current {
  readonly record: ApplicationRecord
  readonly amended: readonly FieldId[]
  /** The amendment that voided it; null for one that stands. */
  readonly voidedBy: Amendment | null
}

export type AmendProblem =
  | { readonly kind: 'nothing-changed' }
  | { readonly kind: 'voided'; readonly by: string }
  | { readonly kind: 'not-a-field'; readonly field: string }
  | { readonly kind: 'value-wrong'; readonly field: FieldId; readonly message: string }
  | { readonly kind: 'no-reason' }

export interface NewAmendment extends Pick<Amendment, 'number' | 'at' | 'by'> {
  readonly why: FreeText
  /** New values by field; undefined takes a field back to never asked. */
  readonly changes?: Readonly<Record<string, unknown>>
  readonly voids?: boolean
}

/** Makes an amendment to a record as it stands. What stood before is taken from the record, not from who asks. */
export function amend(current: Current, wanted: NewAmendment): Result<Amendment, readonly AmendProblem[]> {
  if (current.voidedBy !== null) return fail([{ kind: 'voided', by: current.voidedBy.number }])
  const read = Object.entries(wanted.changes ?? {}).map(([field, after]) =>
    readChange(current.record, field, after),
  )
  const problems: AmendProblem[] = read.flatMap((one) => (one.ok ? [] : [one.error]))
  if (wanted.why.words.trim() === '') problems.push({ kind: 'no-reason' })
  const changes = read.flatMap((one) =>
    one.ok && !isSame(one.value.before, one.value.after) ? [one.value] : [],
  )
  const voids = wanted.voids === true
  if (problems.length === 0 && changes.length === 0 && !voids) problems.push({ kind: 'nothing-changed' })
  if (problems.length > 0) return fail(problems)
  const { number, at, by, why } = wanted
  return ok({ number, record: current.record.number, at, by, why, voids, changes })
}

function readChange(record: ApplicationRecord, field: string, after: unknown): Result<Change, AmendProblem> {
  if (!isFieldId(field)) return fail({ kind: 'not-a-field', field })
  const before = (record[field] ?? null) as Json
  if (after === undefined || after === null) return ok({ field, before, after: null })
  const read = schemaOfField(field).safeParse(after)
  if (!read.success) return fail({ kind: 'value-wrong', field, message: z.prettifyError(read.error) })
  return ok({ field, before, after: read.data as Json })
}

/** An amendment that does not follow from what stood before it. */
export interface Misfit {
  readonly amendment: string
  readonly why: 'other-record' | 'after-void' | 'not-what-stood-before' | 'value-wrong'
  readonly field?: FieldId
}

/**
 * The record after its amendments, in their order. Order matters: an amendment names what it found, and one that finds
 * something else does not apply. What was taken out as personal data is not compared.
 */
export function current(
  record: ApplicationRecord,
  amendments: readonly Amendment[],
): Result<Current, Misfit> {
  let state: Current = { record, amended: [], voidedBy: null }
  for (const amendment of amendments) {
    const next = apply(state, amendment)
    if (!next.ok) return next
    state = next.value
  }
  return ok(state)
}

/** A value of each field, as an amendment brings it. */
const readField = Object.fromEntries(
  fieldIds.map((field) => [field, plainReader(schemaOfField(field))]),
) as Readonly<Record<FieldId, (value: unknown) => unknown>>

function apply(state: Current, amendment: Amendment): Result<Current, Misfit> {
  const misfit = (why: Misfit['why'], field?: FieldId): Result<Current, Misfit> =>
    fail({ amendment: amendment.number, why, ...(field === undefined ? {} : { field }) })
  if (amendment.record !== state.record.number) return misfit('other-record')
  if (state.voidedBy !== null) return misfit('after-void')
  const values: Record<string, unknown> = { ...state.record }
  for (const { field, before, after } of amendment.changes) {
    if (!standsAs(before, (values[field] ?? null) as Json)) return misfit('not-what-stood-before', field)
    if (after === null) delete values[field]
    else if (readField[field](after) === undefined) return misfit('value-wrong', field)
    else values[field] = after
  }
  return ok({
    // Every value went through the schema of its field on its way here.
    record: values as ApplicationRecord,
    amended: [...new Set([...state.amended, ...amendment.changes.map(({ field }) => field)])],
    voidedBy: amendment.voids ? amendment : null,
  })
}

function standsAs(before: Json, stands: Json): boolean {
  return isSame(before, stands) || holdsRemoved(before) || holdsRemoved(stands)
}

function holdsRemoved(value: Json): boolean {
  if (typeof value !== 'object' || value === null) return false
  return 'removed' in value || Object.values(value).some(holdsRemoved)
}

/** One value that a field has had: from the record itself, or from an amendment. */
export interface Version {
  readonly value: Json
  readonly from: 'record' | Amendment
}

/** What a field has said from the beginning, the oldest first. */
export function historyOf(
  record: ApplicationRecord,
  amendments: readonly Amendment[],
  field: FieldId,
): readonly Version[] {
  const changes = amendments.flatMap((amendment) =>
    amendment.changes
      .filter((change) => change.field === field)
      .map(({ after }): Version => ({ value: after, from: amendment })),
  )
  return [{ value: (record[field] ?? null) as Json, from: 'record' }, ...changes]
}

/** An amendment as it enters the chain: who and why sealed, and values of personal fields before and after. */
export function sealAmendment(amendment: Amendment, newSalt: NewSalt): Sealed {
  const isSealed = (path: string): boolean => {
    if (path === 'by' || path === 'why') return true
    const [root, index, part] = path.split('.')
    if (root !== 'changes' || (part !== 'before' && part !== 'after')) return false
    const change = amendment.changes[Number(index)]
    const value = change?.[part]
    return change !== undefined && value !== null && isPersonal(change.field) && path.split('.').length === 3
  }
  return seal(amendment, newSalt, isSealed as typeof isPersonal)
}

const AMENDMENT_FORM = 'Swardhand amendment, form 1'
const AMENDMENT_ORDER = orderOf(['number', 'record', 'at', 'by', 'why', 'voids', 'changes'])

/** The canonical English text of an amendment, as it enters the chain. */
export function amendmentText(open: Json): string {
  return [AMENDMENT_FORM, ...linesOf(open, AMENDMENT_ORDER)].join('\n')
}
