import { type Missing, missing, type WithinLabel, withinLabel } from './complete.ts'
import { labelCheckOf } from './label-check.ts'
import { recorded } from './not-recorded.ts'
import type { RecordDraft } from './record.ts'
import { recordRules } from './rules/all.ts'
import { LABEL_SAYS } from './rules/label.ts'
import type { Finding, RecordContext } from './rules/rule.ts'

/** All that there is to say about a record as it stands. */
export interface RecordStatus {
  /** Holds everything that is asked, and nothing in it contradicts itself. */
  readonly isComplete: boolean
  readonly missing: readonly Missing[]
  /** What the rules found beside what is missing, in the order of their numbers. */
  readonly findings: readonly Finding[]
  /** Complete and within the label are two things: a log tells the truth, whatever the label says to it. */
  readonly withinLabel: WithinLabel
  readonly isLate: boolean
}

/** Holds a record against every rule. */
export function statusOf(record: RecordDraft, context: RecordContext): RecordStatus {
  const entries = context.book.map(({ entry }) => entry)
  const lacks = missing(record, context.rules, entries)
  const found = recordRules.flatMap(({ check }) => check(record, context))
  const findings = found.filter(({ element }) => element === undefined)
  const blocks = findings.some(({ weight, about }) => weight === 'problem' && about === 'complete')
  return {
    isComplete: lacks.length === 0 && !blocks,
    missing: lacks,
    findings,
    withinLabel: labelStanding(record, findings, context),
    isLate: found.some(({ rule, about }) => rule === 'V3' && about === 'time'),
  }
}

/** The label's own verdict decides, and what the record itself shows to be outside the label. */
function labelStanding(
  record: RecordDraft,
  findings: readonly Finding[],
  context: RecordContext,
): WithinLabel {
  const asked = [...context.verdicts].map(([product, verdict]) => labelCheckOf(product, verdict))
  const kept = withinLabel(recorded(record.labelCheck) ?? asked)
  const isOutside = findings.some(
    ({ weight, about, text }) => about === 'label' && weight === 'problem' && text.say !== LABEL_SAYS,
  )
  return isOutside ? 'no' : kept
}
