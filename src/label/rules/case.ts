import type { LabelEntry } from '../entry.ts'
import type { RateLine } from '../rate-line.ts'
import type { AllowSettings, Situation } from '../situation.ts'
import type { Reason } from '../verdict.ts'

/** What every rule looks at: the entry, what is to be done, the rate lines still possible. */
export interface Case {
  readonly entry: LabelEntry
  readonly situation: Situation
  readonly settings: AllowSettings
  readonly lines: readonly RateLine[]
}

/** A rule gives every reason that it finds, none when all is well. */
export type Rule = (asked: Case) => readonly Reason[]

interface Scoped {
  readonly turfs?: readonly string[]
  readonly lines?: readonly string[]
}

/** Does a limit hold here? One for some turfs holds while the turf is unknown, one for some lines while they are possible. */
export function isInScope(limit: Scoped, { situation: { turfs }, lines }: Case): boolean {
  const onTurf =
    limit.turfs === undefined || turfs === 'unknown' || turfs.some((taxon) => limit.turfs?.includes(taxon))
  const onLine = limit.lines === undefined || lines.some(({ id }) => limit.lines?.includes(id))
  return onTurf && onLine
}

/** The limits of a kind that hold here. */
export function inScope<L extends Scoped>(limits: readonly L[] | undefined, asked: Case): readonly L[] {
  return (limits ?? []).filter((limit) => isInScope(limit, asked))
}
