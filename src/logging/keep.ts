import { momentOf } from '#src/desk/moments.ts'
import type { Json } from '#src/record/canonical.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { recordName } from '#src/record/number.ts'
import { ApplicationRecord, type RecordDraft } from '#src/record/record.ts'
import { seal } from '#src/record/seal.ts'
import { keepLink, newSalt } from '#src/records/keep-link.ts'
import type { LogEnv } from './env.ts'
import type { Judged } from './judge.ts'
import { addTreatments } from './treatments.ts'

export interface Kept {
  readonly number: number
  readonly record: ApplicationRecord
}

/** Makes a record out of a draft: number, seal, chain, what it is found by, and the history of its ground. */
export async function keepRecord(env: LogEnv, judged: Judged, mixId: number | null): Promise<Kept> {
  const { tools } = env
  const { store, nowMs, person } = tools
  const number = await store.records.nextNumber()
  const record = ApplicationRecord.parse({ ...judged.draft, ...fixed(env, number) })
  const sealed = seal(record as unknown as Json, newSalt)
  const linkId = await keepLink(store, number, { kind: 'record', sealed }, nowMs)
  const treatments = await addTreatments(env)
  await store.records.create(
    {
      number,
      linkId,
      personId: recorded(record.applicator)?.id ?? person.id,
      ...standingOf(env.draft, judged, mixId),
      treatments,
      voidedAtMs: null,
    },
    (recorded(record.products) ?? []).map(({ name }) => name),
    nowMs,
  )
  return { number, record }
}

/** How a record is found, as it stands. */
export function standingOf(draft: RecordDraft, { status }: Judged, mixId: number | null) {
  return {
    siteId: draft.siteId ?? null,
    areaId: draft.areaId ?? null,
    mixId,
    drawn: recorded(draft.mixDrawn) ?? null,
    appliedOn: recorded(draft.date) ?? null,
    complete: status.isComplete,
    withinLabel: status.withinLabel,
    late: status.isLate,
  }
}

function fixed({ tools, rules }: LogEnv, number: number) {
  const { crew, person, nowMs, locale } = tools
  return {
    number: recordName(number),
    writtenAt: momentOf(crew.zone, nowMs),
    writtenBy: { name: person.name, id: person.id },
    writtenThrough: crew.key.split(':')[0] || 'room',
    chatLanguage: /^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/.test(locale) ? locale : 'en',
    rules: { table: rules.state.id, ...(/^[A-Z]{2}$/.test(rules.state.id) ? { state: rules.state.id } : {}) },
  }
}
