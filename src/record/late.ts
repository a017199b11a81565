import type { Text } from '#src/conversation/text.ts'
import { say } from '#src/conversation/text.ts'
import type { Day } from '#src/label/day.ts'
import { addDays, daysBetween } from '#src/label/day.ts'
import { recorded } from './not-recorded.ts'
import type { RecordDraft } from './record.ts'
import type { RuleSet } from './rule-set.ts'
import type { RuleSource, StateRules, WrittenWithin } from './state-rules.ts'
import { sourceNamed } from './state-rules.ts'
import type { Moment } from './values.ts'
import { dayOf } from './values.ts'

/** How a record was written in time or late, by the rule of its state. */
export interface Timeliness {
  readonly isLate: boolean
  /** Days from the application to the writing. */
  readonly days: number
  readonly limit: WrittenWithin
  readonly source: RuleSource
  /** The state's own rule, or the strict one because none of the state's was found. */
  readonly isOwnRule: boolean
}

const HOUR_MS = 3_600_000

/** Until a record without the state's own day counts as late: the strict table's rule. */
const SAME_DAY = { kind: 'same-day', source: 'strict' } as const satisfies WrittenWithin
const STRICT: RuleSource = {
  basis: 'proposal',
  citation: 'Proposal of this project, no published rule',
  readOn: null,
  remark:
    'No day was found in the rules of the state; the same day is the strictest of those found elsewhere.',
}

/** Was it written in time? Null when the day of the application is not known. */
export function timeliness(record: RecordDraft, writtenAt: Moment, rules: RuleSet): Timeliness | null {
  const done = lastDayOf(record)
  if (done === undefined) return null
  const { limit, source, isOwnRule } = limitOf(rules.state)
  const days = daysBetween(done, dayOf(writtenAt))
  return { isLate: isAfter(limit, days, record, writtenAt), days, limit, source, isOwnRule }
}

/** The finding about a late record as a sentence; null when it was written in time or its day is not known. */
export function late(record: RecordDraft, writtenAt: Moment, rules: RuleSet): Text | null {
  const found = timeliness(record, writtenAt, rules)
  return found === null || !found.isLate ? null : sayLate(found)
}

/** How late, and by whose rule. */
export function sayLate({ days, limit, isOwnRule }: Timeliness): Text {
  return isOwnRule
    ? say('record.late', { days, limit: sayLimit(limit) })
    : say('record.late-strict', { days, limit: sayLimit(limit) })
}

/** The last day on which the record may be written; null when its own day is not known. */
export function writeBy(record: RecordDraft, rules: RuleSet): Day | null {
  const done = lastDayOf(record)
  if (done === undefined) return null
  const { limit } = limitOf(rules.state)
  if (limit.kind === 'same-day') return done
  return addDays(done, limit.kind === 'days' ? limit.days : Math.floor(limit.hours / 24))
}

export function sayLimit(limit: WrittenWithin): Text {
  if (limit.kind === 'same-day') return say('record.limit-same-day')
  if (limit.kind === 'days') return say('record.limit-days', { days: limit.days })
  return say('record.limit-hours', { hours: limit.hours })
}

function limitOf(state: StateRules): Pick<Timeliness, 'limit' | 'source' | 'isOwnRule'> {
  const { writtenWithin } = state
  if (writtenWithin === null) return { limit: SAME_DAY, source: STRICT, isOwnRule: false }
  const source = sourceNamed(state, writtenWithin.source)
  return { limit: writtenWithin, source, isOwnRule: source.basis !== 'proposal' }
}

/** Work that ends after midnight belongs to the day on which it ended. */
function lastDayOf(record: RecordDraft): Day | undefined {
  const ended = recorded(record.endedAt)
  const date = recorded(record.date)
  if (ended === undefined) return date
  return date === undefined || dayOf(ended) > date ? dayOf(ended) : date
}

function isAfter(limit: WrittenWithin, days: number, record: RecordDraft, writtenAt: Moment): boolean {
  if (limit.kind === 'same-day') return days > 0
  if (limit.kind === 'days') return days > limit.days
  const done = recorded(record.endedAt) ?? recorded(record.startedAt)
  // Without a time of day the hours are counted in whole days, to the crew's favor.
  if (done === undefined) return days > Math.ceil(limit.hours / 24)
  return writtenAt.atMs - done.atMs > limit.hours * HOUR_MS
}
