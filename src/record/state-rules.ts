import { z } from 'zod'
import { PlainDay } from '#src/label/day.ts'
import { Decimal } from '#src/quantity/rate.ts'
import type { Result } from '#src/quantity/result.ts'
import { fail, ok } from '#src/quantity/result.ts'
import { conditionIds } from './conditions.ts'
import { elementIds } from './element-ids.ts'

const Text = z.string().trim().min(1).max(600)
const SourceId = z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)

/**
 * Where a value comes from. `read`: the text was read on that day, whole or in part. `secondhand`: it was told by
 * others and not read again. `memory` and `proposal` are marked as what they are.
 */
export const RuleSource = z.discriminatedUnion('basis', [
  z.strictObject({
    basis: z.literal('read'),
    citation: Text,
    edition: Text.exactOptional(),
    url: z.url().exactOptional(),
    readOn: PlainDay,
    extent: z.enum(['whole', 'part']),
    remark: Text.exactOptional(),
  }),
  z.strictObject({
    basis: z.enum(['secondhand', 'memory', 'proposal']),
    citation: Text,
    edition: Text.exactOptional(),
    url: z.url().exactOptional(),
    readOn: z.null(),
    remark: Text.exactOptional(),
  }),
])
export type RuleSource = z.infer<typeof RuleSource>

const source = { source: SourceId }
const when = { when: z.enum(conditionIds).exactOptional() }
const Element = z.enum(elementIds)

/** One element that a record has to hold, or one of several groups of elements. */
export const Required = z.union([
  z.strictObject({ element: Element, ...when, ...source }),
  z.strictObject({ anyOf: z.array(z.array(Element).min(1)).min(2), ...when, ...source }),
])
export type Required = z.infer<typeof Required>

/** By when it has to be written: on the day, or so many hours or days after. */
export const WrittenWithin = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('same-day'), ...source }),
  z.strictObject({ kind: z.literal('hours'), hours: z.int().min(1).max(1000), ...source }),
  z.strictObject({ kind: z.literal('days'), days: z.int().min(1).max(100), ...source }),
])
export type WrittenWithin = z.infer<typeof WrittenWithin>

const orLabelInterval = { orLabelInterval: z.literal(true).exactOptional() }

/** When signs go up, how big and how high they are, and when they may come down. */
export const Posting = z.strictObject({
  up: z.enum(['before', 'start', 'at-application', 'right-after', 'on-the-day']),
  size: z.strictObject({ widthIn: Decimal, heightIn: Decimal }).nullable(),
  lowerEdgeIn: Decimal.nullable(),
  down: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('hours-after'), hours: z.int().min(1).max(500), ...orLabelInterval }),
    z.strictObject({ kind: z.literal('days-after'), days: z.int().min(1).max(30), ...orLabelInterval }),
    z.strictObject({ kind: z.literal('next-day'), ...orLabelInterval }),
    z.strictObject({ kind: z.literal('sunset-next-day'), ...orLabelInterval }),
  ]),
  where: Text,
  ...source,
})
export type Posting = z.infer<typeof Posting>

export const Notice = z.strictObject({
  to: z.enum(['customer', 'neighbor', 'registry']),
  hoursBefore: z.int().min(1).max(1000).nullable(),
  where: z.enum(['everywhere', 'adopting-places', 'on-request']),
  how: Text,
  detail: Text,
  ...source,
})
export type Notice = z.infer<typeof Notice>

/** What the customer gets and by when; `unsaid` where the rule gives no day. */
export const CustomerCopy = z.strictObject({
  within: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('at-completion') }),
    z.strictObject({ kind: z.literal('days'), days: z.int().min(1).max(365) }),
    z.strictObject({ kind: z.literal('unsaid') }),
  ]),
  tells: Text,
  ...source,
})

/**
 * What one state asks of an application record, as far as it was read. An aid: the text of the state's agency governs.
 * Whatever is null or empty was not found, which is not the same as not asked.
 */
export const StateRules = z
  .strictObject({
    id: z.string().regex(/^([A-Z]{2}|[a-z]+(-[a-z]+)*)$/),
    name: Text,
    status: z.enum(['in-force', 'rescinded', 'strict-default', 'house']),
    rescinded: z.strictObject({ on: PlainDay, ...source }).exactOptional(),
    agency: Text,
    covers: Text,
    /** For every product, or for restricted-use products only. */
    products: z.enum(['all', 'restricted']),
    required: z.array(Required).min(1),
    writtenWithin: WrittenWithin.nullable(),
    kept: z.strictObject({ years: z.int().min(1).max(50), ...source }).nullable(),
    posting: Posting.nullable(),
    notices: z.array(Notice),
    copy: CustomerCopy.nullable(),
    consent: z.strictObject({ needs: z.enum(['affirmative', 'written-before']), ...source }),
    language: z.strictObject({ record: z.literal('en'), ...source }).nullable(),
    /** May only weeds that the label lists be treated? */
    pests: z.strictObject({ onlyListed: z.boolean(), ...source }).exactOptional(),
    reports: z.array(
      z.strictObject({
        what: Text,
        by: z.string().regex(/^\d{2}-\d{2}$/),
        remark: Text.exactOptional(),
        ...source,
      }),
    ),
    remarks: z.array(Text).exactOptional(),
    sources: z.record(SourceId, RuleSource),
  })
  .check(({ value, issues }) => {
    for (const { path, id } of sourcesNamed(value, [])) {
      if (Object.hasOwn(value.sources, id)) continue
      issues.push({ code: 'custom', input: id, path, message: `names no source of this file: "${id}"` })
    }
  })
export type StateRules = z.infer<typeof StateRules>

interface Named {
  readonly path: (string | number)[]
  readonly id: string
}

function sourcesNamed(value: unknown, path: (string | number)[]): Named[] {
  if (Array.isArray(value)) return value.flatMap((one, n) => sourcesNamed(one, [...path, n]))
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, inner]) => {
    if (key === 'sources') return []
    const at = [...path, key]
    return key === 'source' && typeof inner === 'string' ? [{ path: at, id: inner }] : sourcesNamed(inner, at)
  })
}

/** One rule table out of the text of its file. @returns what is wrong with it, each with file and field */
export function readStateRules(file: string, text: string): Result<StateRules, readonly string[]> {
  const json = parseJson(text)
  if (!json.ok) return fail([`${file}: is not JSON`])
  const read = StateRules.safeParse(json.value)
  if (!read.success)
    return fail(
      read.error.issues.map(({ path, message }) => `${file}: ${z.core.toDotPath(path)}: ${message}`),
    )
  const expected = file.replace(/^.*\//, '').replace(/\.json$/, '')
  return read.data.id === expected ? ok(read.data) : fail([`${file}: id: must be "${expected}"`])
}

function parseJson(text: string): Result<unknown, null> {
  try {
    return ok(JSON.parse(text))
  } catch {
    return fail(null)
  }
}

/** The source of a value of this table. @throws RangeError for an id that the table does not have */
export function sourceNamed({ sources, id }: StateRules, name: string): RuleSource {
  const found = sources[name]
  if (found === undefined) throw new RangeError(`Cannot find the source "${name}" in the rules of ${id}`)
  return found
}
