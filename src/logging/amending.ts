import { z } from 'zod'
import { field, filesOf, textOf } from '#src/conversation/fields.ts'
import { withHeicNote } from '#src/conversation/heic.ts'
import { type ReplyParts, reply } from '#src/conversation/reply.ts'
import { type Param, say, type Text } from '#src/conversation/text.ts'
import type { Answer, Event, Tools } from '#src/desk/command.ts'
import { momentOf } from '#src/desk/moments.ts'
import { tellLeads } from '#src/mixing/tell-leads.ts'
import { followRecord } from '#src/notices/follow-record.ts'
import { type Amendment, type Current, current } from '#src/record/amend.ts'
import { isSame, type Json } from '#src/record/canonical.ts'
import { isNotRecorded, recorded } from '#src/record/not-recorded.ts'
import { readRecordName, recordName } from '#src/record/number.ts'
import type { FieldId, RecordDraft } from '#src/record/record.ts'
import { fieldIds } from '#src/record/record.ts'
import { MOST_FIELDS } from '#src/record/step-list.ts'
import { labelOf } from '#src/record/text.ts'
import { sayAmendProblem } from '#src/record/words.ts'
import { keepAmendment } from '#src/records/keep-link.ts'
import { isSound, type RecordRead, readRecord } from '#src/records/read-record.ts'
import { printField } from '#src/records/show-record.ts'
import type { RecordRow } from '#src/store/records.ts'
import { refuse } from './begin.ts'
import { envOf, type LogEnv } from './env.ts'
import { freeText } from './fields/field.ts'
import { factsOf, standingLines } from './finish.ts'
import { type FormRead, logForm, readForm } from './forms.ts'
import { judge } from './judge.ts'
import { standingOf } from './keep.ts'
import { partsOf } from './parts.ts'
import { addPhotos, photosOf } from './photos.ts'
import { settle } from './settle.ts'
import { addTreatments } from './treatments.ts'

export interface AmendState {
  readonly record: number
}

/** The record, if there is one and this person may change it: who wrote or applied it, or a lead. */
async function findMine(number: number | null, typed: string, tools: Tools): Promise<RecordRead | Answer> {
  const found = number === null ? undefined : await readRecord(tools.store, number)
  if (found === undefined) return refuse(say('logging.no-such-record', { typed }))
  if (!isSound(found)) return refuse(say('records.unreadable', { number: recordName(found.row.number) }))
  const { writtenBy } = found.original
  const own = [found.row.personId, 'removed' in writtenBy ? undefined : writtenBy.id]
  if (!own.includes(tools.person.id) && !tools.isLead) return refuse(say('logging.not-your-record'))
  const { voidedBy } = found.current
  return voidedBy === null ? found : refuse(sayAmendProblem({ kind: 'voided', by: voidedBy.number }))
}

/** Which part of it is to be changed. A record is never edited: what stood stays, and stands beside what is new. */
export async function beginAmend(typed: string, tools: Tools): Promise<Answer> {
  const found = await findMine(readRecordName(typed), typed, tools)
  if ('reply' in found) return found
  const { number } = found.row
  const env = await envOf(draftOf(found.current), found.row.mixId, tools)
  return question(number, say('logging.amend-what', { number }), {
    lines: [say('logging.amend-how')],
    choices: [
      ...partsOf(env, FIELDS_BESIDE_REASON).map(({ label, fields }) => ({
        label,
        to: { step: 'part', value: [...fields] },
      })),
      { label: say('log-photos.add'), to: { step: 'photos' } },
      { label: say('logging.void', { number }), to: { step: 'void' }, look: 'stop' },
    ],
  })
}

/** The reason takes one field of the form. */
const FIELDS_BESIDE_REASON = MOST_FIELDS - 1

function question(number: number, title: Text, parts: ReplyParts): Answer {
  return {
    reply: reply('question', title, { audience: 'person', safety: { about: ['records'] }, ...parts }),
    state: { record: number } satisfies AmendState,
  }
}

const why = () =>
  field('logging.amend', 'why', { kind: 'long-text', required: true, hint: true, maxLength: 500 })

export async function nextOfAmend({ record }: AmendState, event: Event, tools: Tools): Promise<Answer> {
  const found = await findMine(record, recordName(record), tools)
  if ('reply' in found) return found
  const reason = event.kind === 'submit' ? textOf(event.fields, 'why') : ''
  if (event.step === 'void')
    return event.kind === 'submit' ? write(found, { reason, voids: true }, tools) : askVoid(record)
  if (event.step === 'photos')
    return event.kind === 'submit' ? addToRecord(found, event, tools) : askMorePhotos(record)
  const env = await envOf(draftOf(found.current), found.row.mixId, tools)
  const names = z.array(z.string()).parse(event.value)
  if (event.kind !== 'submit') return askPart(record, env, names)
  const read = readForm(env, names, event.fields)
  if (read.wrong.length > 0) return askPart(record, env, names, { wrong: read.wrong, typed: event.fields })
  const after = await settle(env.draft, read.draft, env.mix, tools, record)
  return write(found, { reason, changes: changesOf(env.draft, after) }, tools)
}

/** Photos that came too late for the log: they stand in the record with who added them, when and why. */
async function addToRecord(
  found: RecordRead,
  { fields }: Event & { readonly kind: 'submit' },
  tools: Tools,
): Promise<Answer> {
  const { number, id } = found.row
  const draft = draftOf(found.current)
  const sent = filesOf(fields, 'photo')
  const reason = textOf(fields, 'why')
  if (reason === '' || sent.length === 0)
    return askMorePhotos(number, [
      ...(sent.length === 0 ? [say('log-photos.none-sent')] : []),
      ...(reason === '' ? [sayAmendProblem({ kind: 'no-reason' })] : []),
    ])
  const { photos, problems } = await addPhotos({ id, draft, kind: 'amendment' }, sent, tools)
  if (problems.length > 0 && photosOf(photos).length === photosOf(draft).length)
    return askMorePhotos(number, problems)
  return withHeicNote(await write(found, { reason, changes: photos, notes: problems }, tools), sent)
}

function askMorePhotos(number: number, problems: readonly Text[] = []): Answer {
  return question(
    number,
    problems.length === 0 ? say('logging.amend-part', { number }) : say('common.not-yet'),
    {
      lines: [...problems],
      form: {
        title: say('log-photos.title'),
        open: say('log-photos.add'),
        fields: [field('log-photos.form', 'photo', { kind: 'file', hint: true, required: true }), why()],
        to: { step: 'photos' },
      },
    },
  )
}

function askVoid(number: number): Answer {
  return question(number, say('logging.void-why', { number }), {
    form: {
      title: say('logging.amend.title'),
      open: say('common.fill-in'),
      fields: [why()],
      to: { step: 'void' },
    },
  })
}

function askPart(
  number: number,
  env: LogEnv,
  names: readonly string[],
  again?: { readonly wrong: FormRead['wrong']; readonly typed: (Event & { kind: 'submit' })['fields'] },
): Answer {
  const form = logForm(env, names, again?.typed ?? null)
  return question(
    number,
    again === undefined ? say('logging.amend-part', { number }) : say('common.not-yet'),
    {
      lines: again === undefined ? [] : again.wrong.map(({ problem }) => problem),
      form: {
        ...form,
        title: say('logging.amend.title'),
        fields: [...form.fields, why()],
        to: { step: 'part', value: [...names] },
      },
    },
  )
}

/** Only what is new; what was left as it stood is no change, nor is an empty field that nobody was asked for. */
function changesOf(before: RecordDraft, after: RecordDraft): Record<string, unknown> {
  return Object.fromEntries(
    fieldIds
      .filter((id) => !(before[id] === undefined && isNotRecorded(after[id])))
      .filter((id) => !isSame((before[id] ?? null) as Json, (after[id] ?? null) as Json))
      .map((id) => [id, after[id]]),
  )
}

interface Wanted {
  readonly reason: string
  readonly changes?: Readonly<Record<string, unknown>>
  readonly voids?: true
  /** What else has to be said: of several files some may be left out. */
  readonly notes?: readonly Text[]
}

async function write(found: RecordRead, wanted: Wanted, tools: Tools): Promise<Answer> {
  const { reason, notes = [], ...rest } = wanted
  const { row } = found
  const made = await keepAmendment(found, { why: freeText(reason, tools), ...rest }, tools)
  if (!made.ok)
    return {
      reply: reply('refusal', say('logging.not-amended', { number: row.number }), {
        lines: made.error.map(sayAmendProblem),
        audience: 'person',
        safety: { about: ['records'] },
      }),
    }
  const now = current(found.current.record, [made.value])
  if (!now.ok) throw new RangeError(`The amendment ${made.value.number} does not follow from what stood`)
  return restate(row, { now: now.value, amendment: made.value, notes }, tools)
}

interface Restated {
  readonly now: Current
  readonly amendment: Amendment
  readonly notes: readonly Text[]
}

/** The record as it stands now: judged anew, and its part in the history of its ground made anew. */
async function restate(row: RecordRow, { now, amendment, notes }: Restated, tools: Tools): Promise<Answer> {
  const { store, nowMs, crew, person } = tools
  const { number } = row
  const { voids } = amendment
  const env = await envOf(draftOf(now), row.mixId, tools)
  const judged = await judge(env, {
    treatments: row.treatments,
    recordNumber: number,
    writtenAt: momentOf(crew.zone, row.createdAtMs),
  })
  await store.records.voidTreatments(row.treatments, nowMs)
  const standing = standingOf(env.draft, judged, row.mixId)
  await store.records.restate(
    row.id,
    {
      ...standing,
      drawn: voids ? null : standing.drawn,
      treatments: voids ? [] : await addTreatments(env),
      voidedAtMs: voids ? nowMs : null,
    },
    (recorded(env.draft.products) ?? []).map(({ name }) => name),
  )
  if (person.id !== row.personId || voids)
    await tellLeads(
      say(voids ? 'logging.lead-voided' : 'logging.lead-amended', { number, person: person.name }),
      `amended-${amendment.number}`,
      tools,
    )
  await followRecord(number, tools)
  const isOutside = judged.status.withinLabel === 'no' && !voids
  return {
    reply: reply(
      isOutside ? 'heads-up' : 'answer',
      say(voids ? 'logging.voided' : 'logging.amended', { number }),
      {
        lines: [
          ...amendment.changes.map(({ field: id, before, after }) =>
            say('logging.changed', {
              field: { literal: labelOf(id) },
              before: shown(id, before),
              after: shown(id, after),
            }),
          ),
          ...notes,
          ...(voids ? [say('logging.voided-stays')] : standingLines(judged)),
        ],
        facts: factsOf(number, judged),
        safety: { about: ['records'] },
      },
    ),
  }
}

/** What somebody typed stands in its own words; everything else as records and papers print it. */
function shown(id: FieldId, value: Json): Param {
  const words = typeof value === 'object' && value !== null && 'words' in value ? value.words : undefined
  return typeof words === 'string' ? words : printField(id, value) || say('records.nothing')
}

/** What may be amended of a record as it stands. What the label said then stays: it is judged anew beside it. */
function draftOf({ record }: Current): RecordDraft {
  const said = Object.fromEntries(
    fieldIds
      .filter((id) => id !== 'labelCheck' && id !== 'keepUntil' && record[id] !== undefined)
      .map((id) => [id, record[id]]),
  )
  return said as RecordDraft
}
