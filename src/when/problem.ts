import type { Day } from '#src/label/day.ts'

/** Everything that can be wrong with a typed day or time. Each kind has its sentence: id `when.<kind>`. */
export type WhenProblem =
  | { readonly kind: 'empty' }
  | { readonly kind: 'too-long'; readonly limit: number }
  /** `rest` is the part that no rule could read. */
  | { readonly kind: 'unread'; readonly text: string; readonly rest: string }
  | { readonly kind: 'no-such-day'; readonly text: string }
  | { readonly kind: 'no-such-time'; readonly text: string }
  /** `3/11` where the reader may write the day first. */
  | { readonly kind: 'ambiguous-day'; readonly text: string; readonly days: readonly [Day, Day] }
  /** A weekday alone, where both the last and the next one can be meant. */
  | { readonly kind: 'ambiguous-week'; readonly text: string; readonly days: readonly [Day, Day] }
  /** `3:15` with nothing that says morning or afternoon; `clock` is what was read, `3:15`. */
  | { readonly kind: 'ambiguous-time'; readonly text: string; readonly clock: string }
  /** Midnight belongs to two days. */
  | { readonly kind: 'midnight'; readonly text: string }
  | { readonly kind: 'two-days'; readonly text: string }
  | { readonly kind: 'two-times'; readonly text: string }
  /** `Monday 11/26` where that day is no Monday. */
  | { readonly kind: 'other-weekday'; readonly text: string; readonly day: Day }
