import type { LabelEntry } from '#src/label/entry.ts'
import type { Asked } from './conditions.ts'
import { holds } from './conditions.ts'
import type { ElementId } from './element-ids.ts'
import { standingOf } from './elements.ts'
import type { RecordDraft } from './record.ts'
import type { Requirement, RuleSet } from './rule-set.ts'
import { requirementsOf, tablesFor } from './rule-set.ts'

/** An element that a record has to hold, with every table that asks it. */
export interface Need {
  readonly element: ElementId
  readonly asking: readonly Requirement[]
}

/**
 * What this record has to hold, for its state, its products and what has been said so far: each element once. Of
 * groups to choose from, the one that is nearest to being filled is taken.
 * @param entries label entries of the products in it, as far as the book has them
 */
export function needsOf(
  draft: RecordDraft,
  rules: RuleSet,
  entries: readonly LabelEntry[] = [],
): readonly Need[] {
  const asked: Asked = { draft, entries }
  const tables = tablesFor(rules, holds('restricted', asked))
  const needs = new Map<ElementId, Requirement[]>()
  for (const requirement of requirementsOf(tables)) {
    if (!holds(requirement.when, asked)) continue
    for (const element of elementsOf(requirement, draft))
      needs.set(element, [...(needs.get(element) ?? []), requirement])
  }
  return [...needs].map(([element, asking]) => ({ element, asking }))
}

function elementsOf({ required }: Requirement, draft: RecordDraft): readonly ElementId[] {
  if ('element' in required) return [required.element]
  const lacking = (group: readonly ElementId[]) =>
    group.filter((element) => standingOf(element, draft) !== 'there').length
  return required.anyOf.reduce((best, group) => (lacking(group) < lacking(best) ? group : best))
}
