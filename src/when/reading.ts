import { addDays, type Day } from '#src/label/day.ts'
import type { Part } from './clock.ts'
import type { WhenProblem } from './problem.ts'
import type { WhenSettings } from './read-when.ts'

const DAY_MINUTES = 1440

/** One text being read: rules take their part out of it until only fillers are left. */
export class Reading {
  readonly days = new Set<Day>()
  readonly minutes = new Set<number>()
  /** Weekdays that stand beside a day and must agree with it; 0 for Sunday. */
  readonly weekdays = new Set<number>()
  part: Part | undefined
  problem: WhenProblem | undefined

  constructor(
    public rest: string,
    /** As typed, for sentences. */
    readonly text: string,
    readonly settings: WhenSettings,
  ) {}

  get today(): Day {
    return this.settings.now.day
  }

  /** Takes out every piece of this shape and hands it over. */
  take(shape: string | RegExp, found: (groups: readonly (string | undefined)[]) => void): void {
    const pattern = typeof shape === 'string' ? new RegExp(`\\b(?:${shape})(?![\\w])`, 'g') : shape
    this.rest = this.rest.replace(pattern, (...match: unknown[]) => {
      const end = match.findIndex((one) => typeof one === 'number')
      found(match.slice(1, end) as (string | undefined)[])
      return ' '
    })
  }

  /** The first problem found is the one told. */
  trouble(problem: WhenProblem): void {
    this.problem ??= problem
  }

  addDay(day: Day | null): void {
    if (day === null) this.trouble({ kind: 'no-such-day', text: this.text })
    else this.days.add(day)
  }

  /** So many minutes from now, backwards when negative. */
  addFromNow(minutes: number): void {
    const { day, minutes: now } = this.settings.now
    const total = now + minutes
    this.days.add(addDays(day, Math.floor(total / DAY_MINUTES)))
    this.minutes.add(((total % DAY_MINUTES) + DAY_MINUTES) % DAY_MINUTES)
  }
}
