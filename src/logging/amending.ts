import { field, textOf } from '#src/conversation/fields.ts'
import { type Choice, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Event, Tools } from '#src/desk/command.ts'
import { tellLeads } from '#src/mixing/tell-leads.ts'
import { planNotices, withdrawNotices } from '#src/notices/plan.ts'
import { type Amendment, amend, type Current, current, sealAmendment } from '#src/record/amend.ts'
import type { Json } from '#src/record/canonical.ts'
import { nextLink } from '#src/record/chain.ts'
import { isNotRecorded, recorded } from '#src/record/not-recorded.ts'
import type { RecordDraft } from '#src/record/record.ts'
import { fieldIds } from '#src/record/record.ts'
import { LOG_STEPS } from '#src/record/step-list.ts'
import { labelOf, textOf as printed } from '#src/record/text.ts'
import { sayAmendProblem } from '#src/record/words.ts'
import { moveStock } from '#src/stock/move-stock.ts'
import type { RecordRow } from '#src/store/records.ts'
import { refuse } from './begin.ts'
import { envOf, type LogEnv } from './env.ts'
import { logFields } from './fields/all.ts'
import { freeText } from './fields/field.ts'
import { factsOf, standingLines } from './finish.ts'
import { logForm, readForm } from './forms.ts'
import { judge } from './judge.ts'
import { newSalt, standingOf } from './keep.ts'
import { momentOf } from './moments.ts'
import { readKept } from './read-kept.ts'
import { addTreatments } from './treatments.ts'

export interface AmendState {
  readonly record: number
}

interface Found {
  readonly row: RecordRow
  readonly stands: Current
}

/** `R12`, `r 12`, `12`. */
export function readRecordNumber(typed: string): number | null {
  const number = /^r?\s*#?\s*(\d{1,9})$/i.exec(typed.trim())?.[1]
  return number === undefined ? null : Number(number)
}

/** The record, if there is one and this person may change it: who wrote or applied it, or a lead. */
async function findMine(number: number | null, typed: string, tools: Tools): Promise<Found | Answer> {
  const row = number === null ? undefined : await tools.store.records.find(number)
  const kept = row === undefined ? null : await readKept(row.number, tools.store)
  if (row === undefined || kept === null) return refuse(say('logging.no-such-record', { typed }))
  const { writtenBy } = kept.record
  const own = [row.personId, 'removed' in writtenBy ? undefined : writtenBy.id]
  if (!own.includes(tools.person.id) && !tools.isLead) return refuse(say('logging.not-your-record'))
  const stands = current(kept.record, kept.amendments)
  if (!stands.ok) throw new RangeError(`The amendments of R${row.number} do not fit each other`)
  if (stands.value.voidedBy !== null)
    return refuse(sayAmendProblem({ kind: 'voided', by: stands.value.voidedBy.number }))
  return { row, stands: stands.value }
}

/** Which part of it is to be changed. A record is never edited: what stood stays, and stands beside what is new. */
export async function beginAmend(typed: string, tools: Tools): Promise<Answer> {
  const found = await findMine(readRecordNumber(typed), typed, tools)
  if ('reply' in found) return found
  const { row } = found
  return {
    reply: reply('question', say('logging.amend-what', { number: row.number }), {
      lines: [say('logging.amend-how')],
      choices: [
        ...LOG_STEPS.flatMap(({ id, fields }): Choice[] => {
          const names = fields.map(({ name }) => name).filter((name) => logFields[name] !== undefined)
          if (names.length === 0) return []
          return chunks(names).map((value, at) => ({
            label:
              at === 0
                ? say(`record.step.${id}`)
                : say('logging.amend-more', { part: say(`record.step.${id}`) }),
            to: { step: 'part', value },
          }))
        }),
        { label: say('logging.amend-notes-button'), to: { step: 'notes' } },
        { label: say('logging.void', { number: row.number }), to: { step: 'void' }, look: 'stop' as const },
      ],
      audience: 'person',
      safety: { about: ['records'] },
    }),
    state: { record: row.number } satisfies AmendState,
  }
}

/** Four fields and the reason: a messenger's form takes five. */
const FIELDS_BESIDE_REASON = 4

function chunks(names: readonly string[]): string[][] {
  return names.length <= FIELDS_BESIDE_REASON
    ? [[...names]]
    : [names.slice(0, FIELDS_BESIDE_REASON), names.slice(FIELDS_BESIDE_REASON)].map((one) => [...one])
}

const why = () =>
  field('logging.amend', 'why', { kind: 'long-text', required: true, hint: true, maxLength: 500 })

export async function nextOfAmend(state: AmendState, event: Event, tools: Tools): Promise<Answer> {
  const found = await findMine(state.record, `R${state.record}`, tools)
  if ('reply' in found) return found
  const env = await envOf(draftOf(found.stands), found.row.mixId, tools)
  if (event.kind === 'submit') return takeAmendment(found, env, event, tools)
  if (event.step === 'part') return askPart(found.row.number, env, namesOf(event.value))
  const isVoid = event.step === 'void'
  return {
    reply: reply(
      'question',
      say(isVoid ? 'logging.void-why' : 'logging.amend-notes', { number: found.row.number }),
      {
        form: {
          title: say('logging.amend.title'),
          open: say('common.fill-in'),
          fields: isVoid
            ? [why()]
            : [
                field('logging.amend', 'notes', {
                  kind: 'long-text',
                  maxLength: 1000,
                  value: recorded(env.draft.notes)?.words ?? '',
                }),
                why(),
              ],
          to: { step: event.step },
        },
        audience: 'person',
        safety: { about: ['records'] },
      },
    ),
    state,
  }
}

function askPart(
  number: number,
  env: LogEnv,
  names: readonly string[],
  wrong?: { readonly problems: readonly Text[]; readonly typed: (Event & { kind: 'submit' })['fields'] },
): Answer {
  const form = logForm(env, names, wrong?.typed ?? null)
  return {
    reply: reply(
      'question',
      wrong === undefined ? say('logging.amend-part', { number }) : say('common.not-yet'),
      {
        lines: wrong === undefined ? [] : [...wrong.problems],
        form: {
          ...form,
          title: say('logging.amend.title'),
          fields: [...form.fields, why()],
          to: { step: 'part', value: [...names] },
        },
        audience: 'person',
        safety: { about: ['records'] },
      },
    ),
    state: { record: number },
  }
}

const namesOf = (value: unknown): string[] =>
  Array.isArray(value)
    ? value.filter((one): one is string => typeof one === 'string' && logFields[one] !== undefined)
    : []

async function takeAmendment(
  found: Found,
  env: LogEnv,
  event: Event & { readonly kind: 'submit' },
  tools: Tools,
): Promise<Answer> {
  const reason = textOf(event.fields, 'why')
  if (event.step === 'void') return write(found, env, {}, reason, true, tools)
  if (event.step === 'notes') {
    const words = textOf(event.fields, 'notes')
    return write(found, env, { notes: words === '' ? undefined : freeText(words, env) }, reason, false, tools)
  }
  const names = namesOf(event.value)
  const read = readForm(env, names, event.fields)
  if (!read.ok) return askPart(found.row.number, env, names, { problems: read.problems, typed: event.fields })
  return write(found, env, changesOf(env.draft, read.draft), reason, false, tools)
}

/** Only what is new; what was left as it stood is no change, nor is an empty field that nobody was asked for. */
function changesOf(before: RecordDraft, after: RecordDraft): Record<string, unknown> {
  return Object.fromEntries(
    fieldIds
      .filter((id) => !(before[id] === undefined && isNotRecorded(after[id])))
      .filter((id) => JSON.stringify(before[id]) !== JSON.stringify(after[id]))
      .map((id) => [id, after[id]]),
  )
}

async function write(
  { row, stands }: Found,
  env: LogEnv,
  changes: Record<string, unknown>,
  reason: string,
  voids: boolean,
  tools: Tools,
): Promise<Answer> {
  const { store, crew, person, nowMs } = tools
  const count = (await store.records.linksOf(row.number)).length
  const made = amend(stands, {
    number: `R${row.number}-A${count}`,
    at: momentOf(crew.zone, nowMs),
    by: { name: person.name, id: person.id },
    why: freeText(reason === '' ? ' ' : reason, env),
    changes,
    voids,
  })
  if (!made.ok)
    return {
      reply: reply('refusal', say('logging.not-amended', { number: row.number }), {
        lines: made.error.map(sayAmendProblem),
        audience: 'person',
        safety: { about: ['records'] },
      }),
    }
  const link = nextLink(await store.records.head(), {
    kind: 'amendment',
    sealed: sealAmendment(made.value, newSalt),
  })
  const linkId = await store.records.append(link, row.number, nowMs)
  return restate({ row, env, changes, amendment: made.value, linkId }, tools)
}

interface Written {
  readonly row: RecordRow
  readonly env: LogEnv
  readonly changes: Record<string, unknown>
  readonly amendment: Amendment
  readonly linkId: number
}

/** The record as it stands now: judged anew, and its part in the history of its ground made anew. */
async function restate({ row, env, changes, amendment }: Written, tools: Tools): Promise<Answer> {
  const { store, nowMs, crew, person } = tools
  const now = await envOf(merged(env.draft, changes), row.mixId, tools)
  const judged = await judge(now, {
    treatments: row.treatments,
    recordNumber: row.number,
    writtenAt: momentOf(crew.zone, row.createdAtMs),
  })
  await store.records.voidTreatments(row.treatments, nowMs)
  const treatments = amendment.voids ? [] : await addTreatments(now)
  await store.records.restate(
    row.id,
    {
      ...standingOf(now.draft, judged, row.mixId),
      drawn: amendment.voids ? null : (recorded(now.draft.mixDrawn) ?? null),
      treatments,
      voidedAtMs: amendment.voids ? nowMs : null,
    },
    (recorded(now.draft.products) ?? []).map(({ name }) => name),
  )
  if (person.id !== row.personId || amendment.voids)
    await tellLeads(
      say(amendment.voids ? 'logging.lead-voided' : 'logging.lead-amended', {
        number: row.number,
        person: person.name,
      }),
      `amended-${amendment.number}`,
      tools,
    )
  if (amendment.voids) await withdrawNotices(row.number, tools)
  else await planAgain(row.number, tools)
  await moveStock(row.number, tools)
  const title = amendment.voids
    ? say('logging.voided', { number: row.number })
    : say('logging.amended', { number: row.number })
  return {
    reply: reply(judged.status.withinLabel === 'no' && !amendment.voids ? 'heads-up' : 'answer', title, {
      lines: [
        ...amendment.changes.map(({ field: id, before, after }) =>
          say('logging.changed', {
            field: { literal: labelOf(id) },
            before: shown(before),
            after: shown(after),
          }),
        ),
        ...(amendment.voids ? [say('logging.voided-stays')] : standingLines(judged)),
      ],
      facts: factsOf(row.number, judged),
      safety: { about: ['records'] },
    }),
  }
}

/** What somebody typed stands in its own words; everything else as the record's text writes it. */
function shown(value: Json): string {
  const words = typeof value === 'object' && value !== null && 'words' in value ? value.words : undefined
  return typeof words === 'string' ? words : printed(value)
}

/** What the record brings to others follows from how it stands now. */
async function planAgain(number: number, tools: Tools): Promise<void> {
  const kept = await readKept(number, tools.store)
  const stands = kept === null ? null : current(kept.record, kept.amendments)
  if (stands?.ok) await planNotices(stands.value.record, number, tools)
}

function merged(draft: RecordDraft, changes: Record<string, unknown>): RecordDraft {
  const all: Record<string, unknown> = { ...draft }
  for (const [id, value] of Object.entries(changes)) {
    if (value === undefined) delete all[id]
    else all[id] = value
  }
  return all as RecordDraft
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
