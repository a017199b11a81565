import type { Day } from '#src/label/day.ts'
import { isDay } from '#src/label/day.ts'
import type { RuleSet } from './rule-set.ts'
import { tablesFor } from './rule-set.ts'

/**
 * The day until which a record is kept: the longest of all tables that hold for it and of the crew's own setting.
 * A record with an open incident stays beyond it.
 * @param crewYears the crew's own rule in years
 */
export function keepUntil(
  date: Day,
  rules: RuleSet,
  options: { readonly restricted: boolean; readonly crewYears: number },
): Day {
  const years = tablesFor(rules, options.restricted).flatMap(({ kept }) =>
    kept === null ? [] : [kept.years],
  )
  return addYears(date, Math.max(options.crewYears, ...years))
}

/** Seven years, the longest rule read so far (Washington); a crew may set more, and less where its state allows. */
export const USUAL_YEARS = 7

function addYears(day: Day, years: number): Day {
  const then = `${String(Number(day.slice(0, 4)) + years).padStart(4, '0')}${day.slice(4)}`
  return isDay(then) ? then : `${then.slice(0, 4)}-03-01`
}
