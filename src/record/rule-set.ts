import type { ConditionId } from './conditions.ts'
import type { Required, RuleSource, StateRules } from './state-rules.ts'
import { sourceNamed } from './state-rules.ts'

/** All rule tables: by state, and those that hold besides. */
export interface RuleTables {
  readonly states: ReadonlyMap<string, StateRules>
  readonly federal: StateRules
  readonly everywhere: StateRules
  readonly fallback: StateRules
  /** The rescinded federal rule: shown, never asked. */
  readonly history: readonly StateRules[]
}

/** The tables that hold for one crew and state. */
export interface RuleSet {
  readonly state: StateRules
  readonly federal: StateRules
  readonly everywhere: StateRules
  /** Asked for a state that has no table of its own, so the strict one stands in. */
  readonly isFallback: boolean
}

/** One thing to hold, with the table that asks it. */
export interface Requirement {
  readonly required: Required
  readonly when: ConditionId | undefined
  readonly table: StateRules
  readonly source: RuleSource
}

/** Sorts the tables that were read. @throws RangeError when one that must exist is lacking, or a live one is rescinded */
export function tablesOf(tables: readonly StateRules[]): RuleTables {
  const named = (id: string) => {
    const found = tables.find((table) => table.id === id && table.status !== 'rescinded')
    if (found === undefined) throw new RangeError(`Cannot find the rule table "${id}"`)
    return found
  }
  return {
    states: new Map(tables.filter(isOfState).map((table) => [table.id, table])),
    federal: named('federal'),
    everywhere: named('everywhere'),
    fallback: named('default'),
    history: tables.filter(({ status }) => status === 'rescinded'),
  }
}

function isOfState({ id, status }: StateRules): boolean {
  return status === 'in-force' && /^[A-Z]{2}$/.test(id)
}

/** The tables for a state by its two letters; the strict one for a state that has none, or when nobody has said which. */
export function ruleSetFor(state: string | undefined, tables: RuleTables): RuleSet {
  const own = state === undefined ? undefined : tables.states.get(state)
  const { federal, everywhere, fallback } = tables
  return { state: own ?? fallback, federal, everywhere, isFallback: own === undefined }
}

/** The tables that count for these products: one for restricted-use products only counts when there is one. */
export function tablesFor(
  { state, federal, everywhere }: RuleSet,
  hasRestricted: boolean,
): readonly StateRules[] {
  return [state, federal, everywhere].filter(({ products }) => products === 'all' || hasRestricted)
}

/** Everything that the tables ask, the state's own first; what two of them ask stands twice, each with its source. */
export function requirementsOf(tables: readonly StateRules[]): readonly Requirement[] {
  return tables.flatMap((table) =>
    [...table.required, ...signsAndNotices(table)].map((required) => ({
      required,
      when: required.when,
      table,
      source: sourceNamed(table, required.source),
    })),
  )
}

/** A state that wants signs or a notice at every job wants it confirmed. */
function signsAndNotices({ posting, notices }: StateRules): readonly Required[] {
  const everywhere = notices.find(({ where }) => where === 'everywhere')
  return [
    ...(posting === null ? [] : [{ element: 'posting', source: posting.source } as const]),
    ...(everywhere === undefined ? [] : [{ element: 'notices', source: everywhere.source } as const]),
  ]
}
