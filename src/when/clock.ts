import { fail, ok, type Result } from '#src/quantity/result.ts'

/** The part of a day that somebody named beside the hour. */
export type Part = 'early' | 'morning' | 'afternoon' | 'evening' | 'night'

export interface Clock {
  readonly hour: number
  readonly minute: number
  /** `07:30` is meant as written. */
  readonly hasZero?: boolean
  readonly half?: 'am' | 'pm'
  readonly part?: Part | undefined
}

type ClockProblem = 'no-such-time' | 'ambiguous-time' | 'midnight'

/** From this hour on, a plain `7:30` is the morning: before it, crews mean the afternoon as often. */
const FIRST_PLAIN_HOUR = 7

/** Minutes since the day began. `3:15` alone is a question, `7:30`, `03:15` and `15:15` are not. */
export function minutesOf(clock: Clock): Result<number, ClockProblem> {
  const { hour, minute } = clock
  if (minute > 59 || hour > 24) return fail('no-such-time')
  if (hour === 24) return fail(minute === 0 ? 'midnight' : 'no-such-time')
  const half = clock.half ?? halfOf(clock)
  if (half === 'midnight' || half === 'ambiguous-time') return fail(half)
  if (half === 'as-written') return ok(hour * 60 + minute)
  if (half === 'am') return hour > 12 ? fail('no-such-time') : ok((hour % 12) * 60 + minute)
  if (hour === 0) return fail('no-such-time')
  return ok((hour > 12 ? hour : (hour % 12) + 12) * 60 + minute)
}

function halfOf({ hour, hasZero, part }: Clock): 'am' | 'pm' | 'as-written' | 'midnight' | 'ambiguous-time' {
  if (hour > 12 || hour === 0 || hasZero) return 'as-written'
  switch (part) {
    case 'early':
      return 'am'
    case 'morning':
      return hour === 12 ? 'as-written' : 'am'
    case 'afternoon':
    case 'evening':
      return 'pm'
    case 'night':
      if (hour === 12) return 'midnight'
      return hour < 5 ? 'ambiguous-time' : 'pm'
    case undefined:
      return hour < FIRST_PLAIN_HOUR ? 'ambiguous-time' : 'as-written'
    default:
      return part satisfies never
  }
}
