import type { Day } from '#src/label/day.ts'
import { fail, ok, type Result } from '#src/quantity/result.ts'
import { plainText, quote } from '#src/quantity/text.ts'
import { type Toward, weekdayOn } from './calendar.ts'
import { findDays } from './find-days.ts'
import { findTimes } from './find-times.ts'
import type { WhenProblem } from './problem.ts'
import { Reading } from './reading.ts'
import { FILLERS } from './words.ts'

/** A day, a time of day, or both: what somebody typed gives at least one of them. */
export interface When {
  readonly day?: Day
  /** Minutes since the day began, 0 to 1439, on the clock of the same place as `now`. */
  readonly minutes?: number
}

export interface WhenSettings {
  /** Day and minutes on the crew's clock. */
  readonly now: { readonly day: Day; readonly minutes: number }
  /** Language of the reader: in Spanish `3/11` may have the day first, and is asked. */
  readonly language: string
  /** For days without a year and weekdays alone. @default 'near' */
  readonly toward?: Toward
}

const LONGEST = 80

/**
 * Reads what people type for a day and a time, in English and Spanish at once: `yesterday 3 pm`, `7:30`, `ayer a las
 * 3 de la tarde`, `11/26`, `26 nov`, `2026-11-26 07:30`, `2 hours ago`, `el lunes pasado`. `11/26` has the month
 * first; where that is no day, the day. Nothing is guessed that is written down afterwards: a time that may be
 * morning or afternoon, and two days or two times, are problems.
 */
export function readWhen(text: string, settings: WhenSettings): Result<When, WhenProblem> {
  if ([...text].length > LONGEST) return fail({ kind: 'too-long', limit: LONGEST })
  const plain = plainText(text).toLowerCase()
  if (plain === '') return fail({ kind: 'empty' })
  const reading = new Reading(plain, quote(text), settings)
  findDays(reading)
  findTimes(reading)
  return finish(reading)
}

function finish(reading: Reading): Result<When, WhenProblem> {
  const { text, problem, weekdays } = reading
  if (problem !== undefined) return fail(problem)
  const rest = reading.rest.replace(FILLERS, ' ').replace(/\s+/g, ' ').trim()
  const [day, ...otherDays] = reading.days
  const [minutes, ...otherTimes] = reading.minutes
  if (rest !== '' || (day === undefined && minutes === undefined))
    return fail({ kind: 'unread', text, rest: rest === '' ? text : quote(rest) })
  if (otherDays.length > 0) return fail({ kind: 'two-days', text })
  if (otherTimes.length > 0) return fail({ kind: 'two-times', text })
  if (day !== undefined && [...weekdays].some((weekday) => weekday !== weekdayOn(day)))
    return fail({ kind: 'other-weekday', text, day })
  return ok({ ...(day === undefined ? {} : { day }), ...(minutes === undefined ? {} : { minutes }) })
}
