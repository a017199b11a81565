import { askFor } from '#src/conversation/ask-for.ts'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { addDays } from '#src/desk/clock.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { pickSite } from '#src/mixing/resolve.ts'
import { readRecordName, recordName } from '#src/record/number.ts'
import { isSound, type RecordRead, readRecords, readSound } from '#src/records/read-record.ts'
import type { RecordFilter } from '#src/store/records.ts'
import { placeOf } from './plan.ts'

interface Given {
  readonly record?: string | undefined
  readonly site?: string | undefined
}

type Found = { readonly ok: true; readonly found: RecordRead } | { readonly ok: false; readonly ask: Answer }

/** Rain long after a job washes nothing off: longer ago nobody is offered it (common practice, no source). */
const LATEST_DAYS = 10
const OFFERED = 8

/** The job that it rained after: by its number, the only one of a site or of the last days, or a question which. */
export async function findRained(given: Given, tools: Tools): Promise<Found> {
  if (given.record !== undefined) return findByNumber(given.record, tools)
  const site = given.site === undefined ? null : await pickSite(given, given.site, tools)
  if (site !== null && !site.ok) return site
  const recent = await standingSince(site === null ? {} : { siteId: site.value.id }, tools)
  const [first, ...others] = recent
  if (first === undefined) return refused(say('rained.none', { days: LATEST_DAYS }))
  if (others.length === 0) return { ok: true, found: first }
  const choices = []
  for (const { row, current } of recent.slice(0, OFFERED)) {
    const record = recordName(row.number)
    choices.push({
      label: say('rained.job', { place: await placeOf(current.record, tools), record }),
      set: { record },
    })
  }
  return {
    ok: false,
    ask: askFor(given, say('rained.which'), choices, { audience: 'person', safety: { about: ['rain'] } }),
  }
}

async function findByNumber(typed: string, { store }: Tools): Promise<Found> {
  const number = readRecordName(typed)
  const found = number === null ? undefined : await readSound(store, number)
  if (found === undefined) return refused(say('rained.no-record', { typed }))
  if (found.current.voidedBy !== null)
    return refused(say('rained.void', { record: recordName(found.row.number) }))
  return { ok: true, found }
}

async function standingSince(filter: RecordFilter, { store, today }: Tools) {
  const from = addDays(today, -LATEST_DAYS)
  const rows = await store.records.listNewest({ ...filter, from }, OFFERED * 3)
  const standing = rows.filter(({ voidedAtMs }) => voidedAtMs === null)
  return (await readRecords(store, standing)).filter(isSound)
}

function refused(line: ReturnType<typeof say>): Found {
  const ask = { reply: reply('refusal', say('rained.cannot'), { lines: [line], audience: 'person' }) }
  return { ok: false, ask }
}
