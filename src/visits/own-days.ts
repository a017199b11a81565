import { say, type Text } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import type { Day } from '#src/label/day.ts'
import { addDays, daysBetween } from '#src/label/day.ts'
import { fail, ok, type Result } from '#src/quantity/result.ts'
import { listDue } from '#src/recheck/due.ts'
import { type OwnDays, workdaysOf } from '#src/recheck/workdays.ts'
import { readDay } from '#src/site/read-day.ts'
import { ownedPlan } from './owned-plans.ts'
import { isNone, readWeekdays } from './read-work.ts'

export interface OwnDaysGiven {
  readonly work_days?: string | undefined
  readonly days_off?: string | undefined
}

/** Nobody's leave is longer; a typed year that is wrong would be. */
const LONGEST_LEAVE_DAYS = 120

/** A person's days with what they typed: days of the week, or those of the crew again; days off, one or from to. */
export function readOwnDays(
  { work_days, days_off }: OwnDaysGiven,
  known: OwnDays,
  today: Day,
): Result<OwnDays, readonly Text[]> {
  const weekdays = work_days === undefined ? known.weekdays : readOwnWeekdays(work_days)
  const daysOff = days_off === undefined ? known.daysOff : readLeave(days_off, today)
  const problems = [
    ...(weekdays === undefined ? [say('own-days.work-wrong', { typed: work_days ?? '' })] : []),
    ...(daysOff === null ? [say('own-days.off-wrong', { typed: days_off ?? '' })] : []),
  ]
  if (weekdays === undefined || daysOff === null) return fail(problems)
  return ok({ weekdays, daysOff: daysOff.filter((day) => day >= today) })
}

/** Null when they are the crew's again; undefined for anything else that is no days of the week. */
function readOwnWeekdays(text: string): number[] | null | undefined {
  if (isNone(text) || /^(the )?crew$|^(la )?cuadrilla$/i.test(text.trim())) return null
  return readWeekdays(text) ?? undefined
}

/** `jul 6 to jul 17; 2026-12-24`, or `none`: every day of it, in order; null when one of them is no day. */
export function readLeave(text: string, today: Day): Day[] | null {
  if (isNone(text)) return []
  const days = new Set<Day>()
  for (const part of text.split(/[;,]/).filter((one) => one.trim() !== '')) {
    const [from = '', to = from, ...more] = part.trim().split(/\s+(?:to|a|al|until|hasta|[-–])\s+/i)
    const last = readDay(to, today, 'future')
    if (last === null || more.length > 0) return null
    // Leave that has begun already begins in the past.
    const begins = (['near', 'future'] as const).map((toward) => readDay(from, today, toward))
    const first = begins.find((day) => day !== null && isLeave(day, last))
    if (first == null) return null
    for (let day = first; day <= last; day = addDays(day, 1)) days.add(day)
  }
  return days.size === 0 ? null : [...days].sort()
}

function isLeave(first: Day, last: Day): boolean {
  const length = daysBetween(first, last)
  return length >= 0 && length <= LONGEST_LEAVE_DAYS
}

/** When somebody works and when they are off, in the fewest words. */
export function sayOwnDays(own: OwnDays, { crew, today }: Pick<Tools, 'crew' | 'today'>): Text[] {
  const { weekdays } = workdaysOf(crew.settings.workdays, own)
  const coming = own.daysOff.filter((day) => day >= today)
  return [
    say(own.weekdays === null ? 'own-days.work-crew' : 'own-days.work', {
      days: { all: weekdays.map((day) => say(`visits.weekday-${day}`)) },
    }),
    ...(coming.length === 0
      ? []
      : [
          say('own-days.off', {
            days: {
              all: spansOf(coming).map(({ from, to }) =>
                from === to
                  ? say('own-days.day', { day: { day: from } })
                  : say('own-days.span', { from: { day: from }, to: { day: to } }),
              ),
            },
          }),
        ]),
  ]
}

/** Days that follow one another as one. */
function spansOf(days: readonly Day[]): { readonly from: Day; readonly to: Day }[] {
  return days.reduce<{ from: Day; to: Day }[]>((spans, day) => {
    const last = spans.at(-1)
    if (last !== undefined && addDays(last.to, 1) === day) last.to = day
    else spans.push({ from: day, to: day })
    return spans
  }, [])
}

/** How many looks are somebody's on a day on which they are off: these are handed over, or wait. */
export async function looksWhileOff(own: OwnDays, { store, person, today }: Tools): Promise<Text[]> {
  const last = own.daysOff.at(-1)
  if (last === undefined) return []
  const visits = await store.visits.listOpen(last)
  const coming = listDue(visits.map(ownedPlan), today, {
    person: String(person.id),
    daysAhead: daysBetween(today, last),
  })
  const count = coming.filter(({ look }) => own.daysOff.includes(look.visitOn)).length
  return count === 0 ? [] : [say('own-days.looks', { count })]
}
