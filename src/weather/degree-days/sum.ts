import { big, decimalText } from '#src/quantity/big.ts'
import type { Reason } from '../reason.ts'
import { reason } from '../reason.ts'
import type { DegreeDayMethod } from './method.ts'
import { degreeDaysOf } from './one-day.ts'
import { dayNumber, dayText } from './plain-day.ts'
import type { DatedTemperatures } from './read-days.ts'

export interface DegreeDays {
  /** The sum with everything that gives it a meaning. */
  readonly total: string
  readonly method: DegreeDayMethod
  readonly firstDay: string
  readonly lastDay: string
  readonly counted: number
  /** Days between the first and the last for which there are no temperatures. */
  readonly missing: readonly string[]
  readonly running: readonly { readonly day: string; readonly degreeDays: string; readonly total: string }[]
  readonly reasons: readonly Reason[]
}

export type SummedDegreeDays =
  | { readonly ok: true; readonly value: DegreeDays }
  | { readonly ok: false; readonly problems: readonly Reason[] }

/** Degree days from the first day on, both ends counted; earlier days are left out. */
export function sumDegreeDays(
  days: readonly DatedTemperatures[],
  method: DegreeDayMethod,
  firstDay: string,
): SummedDegreeDays {
  const problem = methodProblem(method)
  if (problem !== null) return { ok: false, problems: [problem] }
  const counted = days.filter((one) => one.day >= firstDay).toSorted((a, b) => (a.day < b.day ? -1 : 1))
  const last = counted.at(-1)
  if (last === undefined || dayNumber(firstDay) === null)
    return {
      ok: false,
      problems: [reason('question', 'weather.days-none-since', { day: { day: firstDay } })],
    }
  const running = runUp(counted, method)
  const missing = missingDays(firstDay, last.day, new Set(counted.map((one) => one.day)))
  const reasons = missing.length === 0 ? [] : [daysMissing(missing)]
  const total = running.at(-1)?.total ?? '0'
  const value = {
    total,
    method,
    firstDay,
    lastDay: last.day,
    counted: counted.length,
    missing,
    running,
    reasons,
  }
  return { ok: true, value }
}

/** Each day with the total up to it. */
function runUp(days: readonly DatedTemperatures[], method: DegreeDayMethod): DegreeDays['running'] {
  let total = big(0)
  return days.map((one) => {
    const degreeDays = degreeDaysOf(one, method)
    total = total.plus(degreeDays)
    return { day: one.day, degreeDays: decimalText(degreeDays), total: decimalText(total) }
  })
}

function methodProblem(method: DegreeDayMethod): Reason | null {
  if (method.name === 'average' || method.cap === undefined || big(method.cap).gt(big(method.base)))
    return null
  const said = (value: string) => ({ value, unit: method.unit })
  return reason('refusal', 'weather.cap-below-base', { base: said(method.base), cap: said(method.cap) })
}

function missingDays(first: string, last: string, known: ReadonlySet<string>): string[] {
  const [from, to] = [dayNumber(first) ?? 0, dayNumber(last) ?? 0]
  const all = Array.from({ length: to - from + 1 }, (_, index) => dayText(from + index))
  return all.filter((day) => !known.has(day))
}

/** A sum with gaps is too low: told with the first few days that lack. */
function daysMissing(missing: readonly string[]): Reason {
  const shown = missing.slice(0, 5).map((day) => ({ day }))
  return reason('heads-up', 'weather.days-missing', { count: missing.length, days: { all: shown } })
}
