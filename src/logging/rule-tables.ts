import type { RuleSet, RuleTables } from '#src/record/rule-set.ts'
import { ruleSetFor } from '#src/record/rule-set.ts'
import { loadStateRules } from '../../data/states/load.ts'

let tables: RuleTables | null = null

/** The tables that hold in a state, by its two letters; read once, when first needed. */
export function rulesOf(state: string | null): RuleSet {
  tables ??= loadStateRules()
  return ruleSetFor(state ?? undefined, tables)
}
