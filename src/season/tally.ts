import type { Outcome, Reply } from '#src/conversation/reply.ts'

/** How often one thing came up. */
export interface Count {
  readonly id: string
  readonly outcome: Outcome
  /** Mixes in which it came up at least once. */
  mixes: number
  readonly days: Set<string>
}

/** What came up over a season: the last word on each mix, and every reason on the way there. */
export interface Tally {
  mixes: number
  readonly days: Set<string>
  readonly last: Map<Outcome, number>
  readonly reasons: Map<string, Count>
}

export function newTally(): Tally {
  return { mixes: 0, days: new Set(), last: new Map(), reasons: new Map() }
}

/** Lines that every answer has: amounts, tool, order, what the label prints. */
const ORDINARY =
  /^(mixing\.(tool|order|adjuvant|covers|gives|on-ground|load|part|title|job)|mix\.(fill-to|propose)|label\.source|words\.)/

/** Lines that are told and raise nothing, also where another line makes the answer a heads-up. */
const TOLD = /^(mix\.note\.(printed-pair|output-trap|fillings)|mixing\.last-)/

/** Counts one mix: all replies of its conversation, the last of which decides. */
export function countMix(tally: Tally, day: string, replies: readonly Reply[]): void {
  const last = replies.at(-1)
  if (last === undefined) throw new RangeError('A mix without an answer cannot be counted')
  tally.mixes++
  tally.days.add(day)
  tally.last.set(last.outcome, (tally.last.get(last.outcome) ?? 0) + 1)
  for (const [id, outcome] of new Map(replies.flatMap(reasonsOf))) {
    const key = `${outcome} ${id}`
    const count = tally.reasons.get(key) ?? { id, outcome, mixes: 0, days: new Set<string>() }
    count.mixes++
    count.days.add(day)
    tally.reasons.set(key, count)
  }
}

/** A question, a hold and a refusal are their title; an answer is what stands below its figures. */
function reasonsOf({ outcome, title, lines }: Reply): (readonly [id: string, outcome: Outcome])[] {
  if (outcome !== 'answer' && outcome !== 'heads-up') return [[title.say, outcome]]
  return lines
    .map((line) => line.say)
    .filter((id) => !ORDINARY.test(id))
    .map((id) => [id, TOLD.test(id) ? 'answer' : outcome])
}
