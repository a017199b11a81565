import { addDays, type Day, daysBetween, laterOf } from '#src/label/day.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { big, compareNumbers } from '#src/quantity/big.ts'

/** What rain after a job means by the labels of its products. */
export interface RainFinding {
  /** `unsaid`: none of the labels gives a rain-free time, so nobody can tell. */
  readonly kind: 'inside' | 'outside' | 'unsaid'
  /** The longest rain-free time, and the products that it belongs to. */
  readonly rainFreeHours: number | null
  readonly products: readonly string[]
}

/**
 * Rain so many hours after the end of a job, held against the labels' rain-free times. The longest counts: one product
 * that was washed off is enough. At the very end of the time it is over.
 * @param hours decimal text, from 0
 */
export function rainFinding(hours: string, entries: readonly LabelEntry[]): RainFinding {
  const times = entries.flatMap(({ name, limits }) =>
    limits.rainFree === undefined ? [] : [{ name, hours: limits.rainFree.hours }],
  )
  if (times.length === 0) return { kind: 'unsaid', rainFreeHours: null, products: [] }
  const rainFreeHours = Math.max(...times.map((one) => one.hours))
  return {
    kind: compareNumbers(big(hours), rainFreeHours) < 0 ? 'inside' : 'outside',
    rainFreeHours,
    products: times.filter((one) => one.hours === rainFreeHours).map(({ name }) => name),
  }
}

/**
 * When to look after a job that rain may have washed off: half the wait that was planned, and not before tomorrow.
 * Common practice, no source: signs that show on time elsewhere are missing early enough to be seen by then.
 * @returns null when that is no earlier than what is planned
 */
export function lookAfterRain(look: {
  readonly treatedOn: Day
  readonly visitOn: Day
  readonly today: Day
}): Day | null {
  const half = Math.ceil(daysBetween(look.treatedOn, look.visitOn) / 2)
  const day = laterOf(addDays(look.treatedOn, half), addDays(look.today, 1))
  return day < look.visitOn ? day : null
}
