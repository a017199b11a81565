import type { Text } from '#src/conversation/text.ts'
import { say } from '#src/conversation/text.ts'
import type { AmendProblem } from './amend.ts'
import type { Break } from './chain.ts'
import type { RuleSet } from './rule-set.ts'
import type { RuleSource } from './state-rules.ts'

/** What these tables are, and which of them is asked: an aid, never the law itself. */
export function sayTables({ state, isFallback }: RuleSet): readonly Text[] {
  const aid = say('record.aid', { agency: { literal: state.agency } })
  return isFallback ? [say('record.strict-table'), aid] : [aid]
}

/** Where a rule comes from: its text and the day on which it was read, or that it is not from a text at all. */
export function sayRuleSource(source: RuleSource): Text {
  const citation = { literal: source.citation }
  if (source.basis === 'read') return say('record.source-read', { citation, day: { day: source.readOn } })
  return say(`record.source.${source.basis}`, { citation })
}

/** The title of a short form of the log. */
export function sayStepTitle(step: string): Text {
  return say(`record.step.${step}`)
}

/** Why an amendment was not made. */
export function sayAmendProblem(problem: AmendProblem): Text {
  switch (problem.kind) {
    case 'nothing-changed':
      return say('record.amend-nothing')
    case 'voided':
      return say('record.amend-voided', { number: problem.by })
    case 'not-a-field':
      return say('record.amend-not-a-field', { field: problem.field })
    case 'value-wrong':
      return say('record.amend-value', { field: problem.field })
    case 'no-reason':
      return say('record.amend-reason')
    default:
      return problem satisfies never
  }
}

/** Where a chain does not hold. */
export function sayBreak({ kind, seq }: Break): Text {
  return say(`record.break.${kind}`, { seq })
}
