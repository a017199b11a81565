import type { LabelEntry } from '#src/label/entry.ts'
import { standingOf } from './elements.ts'
import { needsOf } from './needs.ts'
import type { RecordDraft } from './record.ts'
import type { RuleSet } from './rule-set.ts'
import type { LogStep, StepField } from './step-list.ts'
import { LOG_STEPS } from './step-list.ts'

/** A short form that is still needed, with only those of its fields that are. */
export interface NextStep {
  readonly step: string
  readonly fields: readonly string[]
}

/**
 * Every short form that is still needed for this crew's state and this product, in the order in which they are asked.
 * What was asked and is not known is not asked again.
 */
export function stepsLeft(
  draft: RecordDraft,
  rules: RuleSet,
  entries: readonly LabelEntry[] = [],
): readonly NextStep[] {
  const open = new Set(
    needsOf(draft, rules, entries)
      .map(({ element }) => element)
      .filter((element) => standingOf(element, draft) === 'absent'),
  )
  const isOpen = ({ name, elements, always }: StepField) =>
    always === true ? !Object.hasOwn(draft, name) : elements.some((element) => open.has(element))
  const left = ({ id, fields }: LogStep): NextStep => ({
    step: id,
    fields: fields.filter(isOpen).map(({ name }) => name),
  })
  return LOG_STEPS.map(left).filter(({ fields }) => fields.length > 0)
}

/** The form to open next; null when nothing is left to ask. */
export function nextStep(
  draft: RecordDraft,
  rules: RuleSet,
  entries: readonly LabelEntry[] = [],
): NextStep | null {
  return stepsLeft(draft, rules, entries)[0] ?? null
}
