import type { Day } from '#src/label/day.ts'
import type { PastTreatment } from '#src/label/situation.ts'
import { historyFrom, pastOf } from '#src/mixing/history.ts'
import { big } from '#src/quantity/big.ts'
import { groundsOf } from '#src/record/ground.ts'
import type { RecordDraft } from '#src/record/record.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { RecordRow } from '#src/store/records.ts'
import type { Area } from '#src/store/sites.ts'
import type { Treatment } from '#src/store/treatments.ts'
import { isSound, readRecords } from './read-record.ts'

/** A log or a kept record on an area, with its place in the history of that area. */
export interface JobOnGround {
  readonly area: Area
  readonly draft: RecordDraft
  readonly on: Day
  /** The treatments that a kept record left itself, and its number: of its day only what came before it is earlier. */
  readonly kept?: { readonly number: number; readonly treatments: readonly number[] }
}

/**
 * What was put on the area before a job or on its day, each treatment with whether it was on the job's own ground, as
 * limits count it. The job's own treatments are left out.
 */
export async function pastOnGround(store: CrewStore, job: JobOnGround): Promise<PastTreatment[]> {
  const treatments = (await store.treatments.list(job.area.id, historyFrom(job.on))).filter(
    (one) => one.treatedOn <= job.on && !isOwn(job, one),
  )
  const grounds = await groundsBefore(store, job, treatments)
  return pastOf(store, treatments, ({ id }) => grounds.get(id) ?? 'unknown')
}

/** The same for doing a kept job once more on the same ground: it counts itself, and of what came later nobody told. */
export async function pastOfRepeat(store: CrewStore, job: JobOnGround, again: Day): Promise<PastTreatment[]> {
  const treatments = await store.treatments.list(job.area.id, historyFrom(again))
  const earlier = treatments.filter((one) => one.treatedOn <= job.on && !isOwn(job, one))
  const grounds = await groundsBefore(store, job, earlier)
  return pastOf(store, treatments, (one) => isOwn(job, one) || (grounds.get(one.id) ?? 'unknown'))
}

const isOwn = ({ kept }: JobOnGround, { id }: Treatment) => kept?.treatments.includes(id) === true

type Grounds = ReadonlyMap<number, PastTreatment['sameGround']>

/** Whose treatments they are is read only where it matters: a job over the whole area was on all of their ground. */
async function groundsBefore(
  store: CrewStore,
  job: JobOnGround,
  treatments: readonly Treatment[],
): Promise<Grounds> {
  const isWhole = job.draft.coverage === 'whole area'
  const earlier = isWhole ? jobsOf(job, treatments, []) : await recordedJobs(store, job, treatments)
  const grounds = groundsOf(
    job.draft,
    earlier.map(({ draft }) => draft),
  )
  return new Map(earlier.flatMap(({ ids }, at) => ids.map((id) => [id, grounds[at] ?? 'unknown'] as const)))
}

/** More records of one area within the years that a limit looks back are not looked through. */
const MOST_RECORDS = 200

async function recordedJobs(store: CrewStore, job: JobOnGround, treatments: readonly Treatment[]) {
  const from = treatments[0]?.treatedOn
  if (from === undefined) return []
  const rows = await store.records.listNewest(
    { siteId: job.area.siteId, areaId: job.area.id, from, to: job.on },
    MOST_RECORDS,
  )
  const standing = rows.filter(({ number, voidedAtMs }) => number !== job.kept?.number && voidedAtMs === null)
  const found = (await readRecords(store, standing)).filter(isSound)
  return jobsOf(
    job,
    treatments,
    found.map(({ row, current }) => ({ row, draft: current.record })),
  )
}

interface EarlierJob {
  readonly ids: readonly number[]
  readonly draft: RecordDraft
}

interface FoundRecord {
  readonly row: RecordRow
  readonly draft: RecordDraft
}

/** The newest first. Treatments that no record left stand for one job a day, of which nobody told the ground. */
function jobsOf(
  job: JobOnGround,
  treatments: readonly Treatment[],
  records: readonly FoundRecord[],
): EarlierJob[] {
  const byRecord = new Map(records.flatMap((one) => one.row.treatments.map((id) => [id, one] as const)))
  const jobs = new Map<string, { on: Day; number: number; draft: RecordDraft; parts: Treatment[] }>()
  for (const one of treatments) {
    const record = byRecord.get(one.id)
    const number = record?.row.number ?? 0
    const key = `${one.treatedOn} ${number}`
    const known = jobs.get(key)
    if (known === undefined)
      jobs.set(key, { on: one.treatedOn, number, draft: record?.draft ?? {}, parts: [one] })
    else known.parts.push(one)
  }
  return [...jobs.values()]
    .filter(({ on, number }) => on < job.on || number < (job.kept?.number ?? Number.POSITIVE_INFINITY))
    .sort((a, b) => (a.on === b.on ? b.number - a.number : a.on < b.on ? 1 : -1))
    .map(({ draft, parts }) => ({
      ids: parts.map(({ id }) => id),
      draft: coversAll(job.area, parts) ? { ...draft, coverage: 'whole area' } : draft,
    }))
}

const coversAll = ({ squareFeet }: Area, parts: readonly Treatment[]) =>
  parts.every(({ details }) => big(details.treatedFt2).gte(squareFeet))
