import type { Outcome } from '#src/conversation/reply.ts'
import type { Text } from '#src/conversation/text.ts'
import { say } from '#src/conversation/text.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import type { ElementId } from './element-ids.ts'
import { standingOf } from './elements.ts'
import type { LabelCheck } from './label-check.ts'
import type { Need } from './needs.ts'
import { needsOf } from './needs.ts'
import type { RecordDraft } from './record.ts'
import type { RuleSet } from './rule-set.ts'
import { stepAsking } from './step-list.ts'

/** Something that a record lacks: what it is, why it is asked, and the form in which it can be given. */
export interface Missing {
  readonly element: ElementId
  /** Asked and not known, or never asked. */
  readonly standing: 'not-recorded' | 'absent'
  readonly text: Text
  readonly step: string
  readonly field: string
  readonly asking: Need['asking']
}

/** What this record still lacks for its state and its products; empty for a complete one. */
export function missing(
  record: RecordDraft,
  rules: RuleSet,
  entries: readonly LabelEntry[] = [],
): readonly Missing[] {
  return needsOf(record, rules, entries).flatMap(({ element, asking }) => {
    const standing = standingOf(element, record)
    if (standing === 'there') return []
    const what = sayElement(element)
    const text = standing === 'absent' ? say('record.missing', { what }) : say('record.not-known', { what })
    const { step, field } = stepAsking(element)
    return [{ element, standing, text, step, field, asking }]
  })
}

/** What people call an element. */
export function sayElement(element: ElementId): Text {
  return say(`record.element.${element}`)
}

/** Does the label allow what was done? `unknown` when it was never held against the label. */
export type WithinLabel = 'yes' | 'no' | 'unknown'

/** Only a refusal, or a hold that nobody lifted, puts a record outside the label. */
export function withinLabel(check: LabelCheck | undefined): WithinLabel {
  if (check === undefined || check.length === 0) return 'unknown'
  return check.every(({ outcome, lifted }) => isAllowed(outcome) || (outcome === 'hold' && lifted === true))
    ? 'yes'
    : 'no'
}

function isAllowed(outcome: Outcome): boolean {
  return outcome === 'answer' || outcome === 'heads-up'
}
