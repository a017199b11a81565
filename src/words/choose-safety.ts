import { type SafetyLine, type SafetyLines, Topic } from './safety.ts'

/** What a safety line is chosen for. */
export interface SafetyNeed {
  /** Topics of this step; ones that are not known count as `general`. */
  readonly about: readonly string[]
  /** Ids of lines that come before any other. */
  readonly first?: readonly string[]
  /** Counts on from answer to answer, so that the same line does not come twice running. */
  readonly turnNumber: number
  /** Ids that this person has just read; they come last in the choice. */
  readonly recentlyShown?: readonly string[]
}

/**
 * Ids of the lines to show: those asked for first, in their order, then one line that fits the step. Words of
 * emergency bring all emergency lines, before any other. Always at least one; the same need gives the same lines. An
 * id that is no more (a kept answer may name it) is left out.
 */
export function chooseSafety(lines: SafetyLines, need: SafetyNeed): string[] {
  const byId = new Map(lines.map((line) => [line.id, line]))
  const asked = (need.first ?? []).flatMap((id) => byId.get(id) ?? [])
  const emergency = need.about.includes('emergency')
    ? lines.filter((line) => line.about.includes('emergency'))
    : asked.filter((line) => line.about.includes('emergency'))
  const chosen = [...emergency, ...asked].map((line) => line.id)
  if (emergency.length === 0) chosen.push(pickFitting(lines, need, new Set(chosen)))
  return [...new Set(chosen)].filter((id) => id !== '')
}

/** One fitting line. Topics take turns, then the lines of the topic, those read lately last. */
function pickFitting(lines: SafetyLines, need: SafetyNeed, taken: ReadonlySet<string>): string {
  const known = Topic.options.filter((topic) => need.about.includes(topic))
  const topics = known.length > 0 ? known : (['general'] as const)
  const turn = Math.abs(Math.trunc(need.turnNumber))
  const topic = topics[turn % topics.length] ?? 'general'
  const fitting = lines.filter((line) => line.about.includes(topic) && !taken.has(line.id))
  const fresh = fitting.filter((line) => !(need.recentlyShown ?? []).includes(line.id))
  const pool: readonly SafetyLine[] = fresh.length > 0 ? fresh : fitting
  return pool[Math.floor(turn / topics.length) % Math.max(pool.length, 1)]?.id ?? ''
}
