import type { Text } from '#src/conversation/text.ts'
import { addDays } from '#src/desk/clock.ts'
import type { Tools } from '#src/desk/command.ts'
import { isSound, readRecords } from '#src/records/read-record.ts'
import type { RecordFilter } from '#src/store/records.ts'
import { isTask, type Notice } from './notice.ts'
import { noticed, taskDone } from './plan.ts'

/** One thing that still holds on one place, or that is still to be done there. */
export interface InForce {
  readonly record: number
  readonly place: Text
  readonly notice: Notice
  /** A task whose time has gone by. */
  readonly isOverdue: boolean
}

/** No wait of a label that was ever typed lasts longer; older records are not looked at. */
const LONGEST_DAYS = 366
/** A task that nobody has marked after so many days was done and not marked (common practice, no source). */
const FORGOTTEN_MS = 14 * 86_400_000
const MOST_RECORDS = 200

/** What holds now, by all standing records, what ends first at the head. */
export async function inForce(
  filter: RecordFilter,
  tools: Pick<Tools, 'store' | 'crew' | 'person' | 'nowMs' | 'today' | 'canWrite'>,
): Promise<readonly InForce[]> {
  const { store, nowMs, today } = tools
  const from = addDays(today, -LONGEST_DAYS)
  const rows = await store.records.listNewest({ ...filter, from }, MOST_RECORDS)
  const found: InForce[] = []
  const standing = rows.filter(({ voidedAtMs }) => voidedAtMs === null)
  for (const one of (await readRecords(store, standing)).filter(isSound)) {
    const { record } = one.current
    const { notices, place } = await noticed(record, tools)
    for (const notice of notices) {
      const { kind, untilMs } = notice
      const isOver = untilMs !== null && untilMs <= nowMs
      if (isOver && (!isTask(kind) || untilMs < nowMs - FORGOTTEN_MS)) continue
      if (untilMs === null && record.writtenAt.atMs < nowMs - DRY_MS) continue
      if (isTask(kind) && (await taskDone(one, kind, tools)) !== null) continue
      found.push({ record: one.row.number, place, notice, isOverdue: isOver })
    }
  }
  return found.sort((a, b) => (a.notice.untilMs ?? 0) - (b.notice.untilMs ?? 0))
}

/** What has no hour is not shown for longer: every spray has dried by then (common practice, no source). */
const DRY_MS = 12 * 3_600_000
