import { say } from '#src/conversation/text.ts'
import { daysBetween } from '#src/label/day.ts'
import { sayLate, timeliness } from '../late.ts'
import { recorded } from '../not-recorded.ts'
import { dayOf } from '../values.ts'
import type { Finding, RecordRule } from './rule.ts'
import { finding, lacking } from './rule.ts'

export const v1: RecordRule = {
  id: 'V1',
  source:
    '7 CFR 110.3 (2006); EPA, Applicator Recordkeeping Requirements under the EPA Plan; the bar on a day to come is a proposal of this project',
  check(record, context) {
    const date = recorded(record.date)
    const absent = lacking('V1', ['date'], record, context)
    if (date === undefined || date <= dayOf(context.now)) return absent
    const figures = { day: { day: date }, today: { day: dayOf(context.now) } }
    return [...absent, finding('V1', say('record.v1-future', figures), { fields: ['date'] })]
  },
}

export const v2: RecordRule = {
  id: 'V2',
  source: 'EPA Plan; 4 Texas Administrative Code 7.33; Wisconsin ATCP 29.21',
  check(record, context) {
    const absent = lacking('V2', ['start-time', 'end-time'], record, context)
    const start = recorded(record.startedAt)
    const end = recorded(record.endedAt)
    const date = recorded(record.date)
    const found: Finding[] = [...absent]
    const fields = ['startedAt', 'endedAt']
    if (start !== undefined && end !== undefined && end.atMs <= start.atMs)
      found.push(
        finding('V2', say('record.v2-order', { start: start.local.slice(11), end: end.local.slice(11) }), {
          fields,
        }),
      )
    if (start !== undefined && start.atMs > context.now.atMs)
      found.push(finding('V2', say('record.v2-future', { start: start.local.slice(11) }), { fields }))
    if (start !== undefined && date !== undefined && dayOf(start) !== date)
      found.push(finding('V2', say('record.v2-other-day', { day: { day: dayOf(start) } }), { fields }))
    if (end !== undefined && date !== undefined && dayOf(end) !== date && recorded(record.nightWork) !== true)
      found.push(finding('V2', say('record.v2-night', { day: { day: dayOf(end) } }), { fields: ['endedAt'] }))
    return found
  },
}

export const v3: RecordRule = {
  id: 'V3',
  source:
    'Ohio Administrative Code 901:5-11-10; Wisconsin ATCP 29.21; 01-026 Code of Maine Rules ch. 50; New Jersey 7:30-8.8; Minnesota Statutes 18B.37; Iowa State University Extension, 12 May 1995',
  check(record, { writtenAt, rules, settings }) {
    const found = timeliness(record, writtenAt, rules)
    if (found === null) return []
    const late = found.isLate ? [finding('V3', sayLate(found), { about: 'time', weight: 'warn' })] : []
    const date = recorded(record.date)
    const days = date === undefined ? found.days : daysBetween(date, dayOf(writtenAt))
    if (days <= settings.noteAfterDays || recorded(record.lateNote) !== undefined) return late
    return [...late, finding('V3', say('record.v3-note', { days }), { about: 'time', fields: ['lateNote'] })]
  },
}
