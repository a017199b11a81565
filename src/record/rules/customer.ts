import { say } from '#src/conversation/text.ts'
import type { Day } from '#src/label/day.ts'
import { addDays } from '#src/label/day.ts'
import { holds } from '../conditions.ts'
import { recorded } from '../not-recorded.ts'
import { sayPosting } from '../posting.ts'
import type { RecordDraft } from '../record.ts'
import { tablesFor } from '../rule-set.ts'
import type { StateRules } from '../state-rules.ts'
import { dayOf } from '../values.ts'
import type { Finding, RecordContext, RecordRule } from './rule.ts'
import { finding, lacking, productsOf } from './rule.ts'

const isForHire = (record: RecordDraft) => recorded(record.forHire) !== false

export const v22: RecordRule = {
  id: 'V22',
  source:
    'EPA, Applicator Recordkeeping Requirements under the EPA Plan; New York Environmental Conservation Law 33-1205 (five-digit ZIP)',
  check(record, context) {
    const absent = lacking('V22', ['customer-name', 'customer-address', 'place-zip'], record, context)
    const address = recorded(record.customerAddress)
    return isForHire(record) && address !== undefined && address.zip === undefined
      ? [...absent, finding('V22', say('record.v22-zip'), { fields: ['customerAddress'] })]
      : absent
  },
}

export const v33: RecordRule = {
  id: 'V33',
  source:
    'EPA Label Review Training module 3; University of Florida IFAS, equipo de protección personal (Polk County, Dec 2022)',
  check(record, context) {
    const absent = lacking('V33', ['ppe'], record, context)
    const ppe = recorded(record.ppe)
    if (ppe === undefined) return absent
    const unsaid = productsOf(record, context).flatMap(({ product, booked }): Finding[] => {
      const lines = (booked?.entry.safety.spraying ?? []).filter((line) => !ppe.text.includes(line))
      if (lines.length === 0) return []
      const figures = { product: product.name, lines: { all: lines, join: 'and' } as const }
      return [finding('V33', say('record.v33-text', figures), { fields: ['ppe'] })]
    })
    return [
      ...absent,
      ...(ppe.confirmed
        ? []
        : [finding('V33', say('record.v33-unconfirmed'), { about: 'label', fields: ['ppe'] })]),
      ...unsaid,
    ]
  },
}

export const v34: RecordRule = {
  id: 'V34',
  source: '333 Code of Massachusetts Regulations 13.06; New Jersey 7:30-7.3',
  check(record, context) {
    const absent = lacking('V34', ['keep-off', 're-entry', 'customer-told'], record, context)
    return recorded(record.customerTold) === false
      ? [
          ...absent,
          finding('V34', say('record.v34-not-told'), { about: 'customer', fields: ['customerTold'] }),
        ]
      : absent
  },
}

export const v35: RecordRule = {
  id: 'V35',
  source:
    '415 Illinois Compiled Statutes 65/3; Ohio Administrative Code 901:5-11-09; Minnesota Statutes 18B.09; New Jersey 7:30-9.13; Wisconsin ATCP 29.56; 01-026 Code of Maine Rules ch. 28 s. 3',
  check(record, context) {
    const absent = lacking('V35', ['posting'], record, context)
    const { posting } = context.rules.state
    if (posting === null || recorded(record.posting)?.done !== false) return absent
    const text = say('record.v35-not-posted', { how: sayPosting(posting) })
    return [...absent, finding('V35', text, { about: 'customer', fields: ['posting'] })]
  },
}

export const v36: RecordRule = {
  id: 'V36',
  source:
    'New York Environmental Conservation Law 33-1004; Wisconsin ATCP 29.56; Ohio Administrative Code 901:5-11-09',
  check(record, context) {
    const absent = lacking('V36', ['notices'], record, context)
    const given = recorded(record.notices) ?? []
    const undone = context.rules.state.notices.flatMap(({ to, where, detail }): Finding[] => {
      const known = given.filter((one) => one.to === to)
      if (known.some(({ done }) => done)) return []
      const isRefused = known.length > 0
      const weight = where === 'everywhere' || isRefused ? 'problem' : 'warn'
      if (where === 'everywhere' && absent.length > 0) return []
      const text = say(isRefused ? 'record.v36-not-done' : 'record.v36-ask', {
        to: say(`record.notice.${to}`),
        detail: { literal: detail },
      })
      return [finding('V36', text, { weight, about: 'customer', fields: ['notices'] })]
    })
    return [...absent, ...undone]
  },
}

export const v37: RecordRule = {
  id: 'V37',
  source:
    '7 U.S.C. 136i-1; Minnesota Statutes 18B.37; Wisconsin ATCP 29.22; 15 U.S.C. 7001 (consent to electronic delivery)',
  check: (record, context) => [...overdueCopy(record, context), ...withoutConsent(record, context)],
}

/** Tables that hold for this record: a restricted-use product brings the federal copy with it. */
function copyTables(record: RecordDraft, context: RecordContext): readonly StateRules[] {
  const entries = productsOf(record, context).flatMap(({ booked }) => booked?.entry ?? [])
  return tablesFor(context.rules, holds('restricted', { draft: record, entries }))
}

/** The day by which the customer has the copy; null when no rule gives one or the day of the job is not known. */
export function copyDueOn(record: RecordDraft, context: RecordContext): Day | null {
  const date = recorded(record.date)
  if (date === undefined || !isForHire(record)) return null
  const days = copyTables(record, context).flatMap(({ copy }) => {
    if (copy === null || copy.within.kind === 'unsaid') return []
    return [copy.within.kind === 'at-completion' ? date : addDays(date, copy.within.days)]
  })
  return days.sort()[0] ?? null
}

function overdueCopy(record: RecordDraft, context: RecordContext): Finding[] {
  const due = copyDueOn(record, context)
  const sentOn = recorded(record.customerCopy)?.sentOn
  const fields = ['customerCopy']
  if (due === null) return []
  if (sentOn === undefined)
    return dayOf(context.now) > due
      ? [finding('V37', say('record.v37-overdue', { due: { day: due } }), { about: 'customer', fields })]
      : []
  return sentOn > due
    ? [
        finding('V37', say('record.v37-late', { due: { day: due }, sent: { day: sentOn } }), {
          about: 'customer',
          weight: 'warn',
          fields,
        }),
      ]
    : []
}

function withoutConsent(record: RecordDraft, context: RecordContext): Finding[] {
  const copy = recorded(record.customerCopy)
  if (copy === undefined || copy.how === 'paper') return []
  const consent = recorded(record.consent)
  const needs = context.rules.state.consent.needs
  const isGiven = consent?.given === true && (consent.on === undefined || consent.on <= copy.sentOn)
  const isWritten = consent?.how === 'written' && consent.on !== undefined
  if (isGiven && (needs === 'affirmative' || isWritten)) return []
  const text = say(needs === 'written-before' ? 'record.v37-written-consent' : 'record.v37-consent')
  return [finding('V37', text, { about: 'customer', fields: ['consent'] })]
}
