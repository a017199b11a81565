import type { Attachment, Reply, ReplyParts } from '#src/conversation/reply.ts'
import { reply } from '#src/conversation/reply.ts'
import type { Param, Text } from '#src/conversation/text.ts'
import { say } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import type { Amendment } from '#src/record/amend.ts'
import type { Json } from '#src/record/canonical.ts'
import { isRemoved, recorded } from '#src/record/not-recorded.ts'
import { recordName } from '#src/record/number.ts'
import type { FieldId } from '#src/record/record.ts'
import { fieldIds } from '#src/record/record.ts'
import { labelOf } from '#src/record/text.ts'
import { lacksOf } from './lacks.ts'
import { saySite } from './list-records.ts'
import { printValue } from './print-value.ts'
import type { RecordRead } from './read-record.ts'
import { readRecord } from './read-record.ts'
import { noLacks, recordFacts, sayDayOf, sayStanding } from './say-row.ts'
import { withoutLicenses } from './withhold.ts'

const person: ReplyParts = { audience: 'person', safety: { about: ['records'] } }

/** One record with everything that was amended in it, what it lacks, and its photos. */
export async function showRecord(number: number, tools: Tools): Promise<Reply> {
  const found = await readRecord(tools.store, number)
  const name = recordName(number)
  if (found === undefined) return reply('question', say('records.not-found', { number: name }), person)
  if (found.kind === 'unreadable')
    return reply('hold', say('records.unreadable', { number: name }), {
      ...person,
      facts: recordFacts(found.row, noLacks),
    })
  const lacks = await lacksOf(tools.store, found)
  const names = await tools.store.sites.namesOf(found.row.siteId === null ? [] : [found.row.siteId])
  const seen = tools.isLead ? found : withoutLicenses(found)
  const { row, current, amendments, misfit } = seen
  return reply(row.complete && row.voidedAtMs === null ? 'answer' : 'heads-up', sayTitle(seen, names), {
    ...person,
    lines: [
      sayStanding(row),
      ...lacks.missing.map(({ text }) => text),
      ...lacks.problems.map(({ text }) => text),
      ...KEY_FIELDS.flatMap((field) => sayField(seen, field)),
      ...amendments.flatMap(sayAmendment),
      ...(misfit === null ? [] : [say('records.misfit', { number: misfit.amendment })]),
    ],
    facts: recordFacts(row, lacks),
    working: fieldIds
      .filter((field) => !KEY_FIELDS.includes(field))
      .flatMap((field) => sayField(seen, field)),
    files: photosOf(recorded(current.record.photos) ?? []),
  })
}

/** What a person looks for first; everything else stands in the working. */
const KEY_FIELDS: readonly FieldId[] = [
  'startedAt',
  'endedAt',
  'customerName',
  'placeAddress',
  'placeWords',
  'products',
  'treatedArea',
  'targets',
  'windSpeed',
  'windFrom',
  'temperature',
  'applicator',
  'keepOffUntil',
]

function sayTitle({ row }: RecordRead, names: ReadonlyMap<number, string>): Text {
  return say('records.show-title', {
    number: recordName(row.number),
    day: sayDayOf(row),
    site: saySite(row, names),
  })
}

/** A field with its English name, as it stands in the kept record; nothing for one that was never asked. */
function sayField({ current: { record } }: RecordRead, field: FieldId): readonly Text[] {
  const value = printField(field, record[field])
  return value === '' ? [] : [say('records.field', { field: { literal: labelOf(field) }, value })]
}

/** Ids and hashes are for programs; what is left is printed for people. */
export function printField(field: FieldId, value: unknown): string {
  if (field === 'siteId' || field === 'areaId') return ''
  if (field === 'photos') return printPhotos(value)
  if (field === 'products') return printProducts(value)
  return printValue(value as Json | undefined)
}

/** How many, and the beginning of each file's SHA-256, by which a file is told from any other. */
function printPhotos(value: unknown): string {
  if (!Array.isArray(value)) return printValue(value as Json | undefined)
  const marks = value.map((hash) => String(hash).slice(0, 8)).join(', ')
  return `${value.length} (SHA-256 ${marks})`
}

interface Printed {
  readonly name: string
  readonly registration?: Json
  readonly amount?: Json
  readonly rate?: Json
}

/** Name, number, amount and rate of each product; the rest has columns of its own on papers. */
function printProducts(value: unknown): string {
  if (!Array.isArray(value)) return printValue(value as Json | undefined)
  return value
    .map(({ name, registration, amount, rate }: Printed) =>
      [name, registration, amount, rate]
        .map((one) => printValue(one))
        .filter((one) => one !== '')
        .join(', '),
    )
    .join('; ')
}

/** Who changed what, when and why: what stood before, and what stands now. */
function sayAmendment(amendment: Amendment): readonly Text[] {
  const { number, at, by, why, voids, changes } = amendment
  const parameters: Record<string, Param> = {
    number,
    at: { literal: at.local },
    by: isRemoved(by) ? say('records.removed') : by.name,
    why: isRemoved(why) ? say('records.removed') : why.words,
  }
  return [
    say(voids ? 'records.voids' : 'records.amends', parameters),
    ...changes.map(({ field, before, after }) =>
      say('records.change', {
        field: { literal: labelOf(field) },
        before: printField(field, before) || say('records.nothing'),
        after: printField(field, after) || say('records.nothing'),
      }),
    ),
  ]
}

function photosOf(hashes: readonly string[]): Attachment[] {
  return hashes.slice(0, 10).map((blob, at) => ({
    name: `photo-${at + 1}`,
    alt: say('records.photo', { number: at + 1 }),
    from: { blob },
  }))
}
