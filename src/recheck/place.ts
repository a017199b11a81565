import type { Day } from '#src/label/day.ts'
import { addDays, daysBetween, laterOf } from '#src/label/day.ts'
import type { Round, Workdays } from './workdays.ts'
import { isOnRound, isWorkday, workdayFrom } from './workdays.ts'

/** The days of a crew as far as a schedule depends on them. */
export interface CrewDays {
  readonly workdays: Workdays
  readonly round?: Round
}

export interface Placed {
  readonly from: Day
  readonly to: Day
  readonly visitOn: Day
}

/** A window with the day on which it fits best. With no workday in it, it lasts until the next one. */
export function placeWindow(from: Day, to: Day, crew: CrewDays): Placed {
  const days = Array.from({ length: daysBetween(from, to) + 1 }, (_, at) => addDays(from, at)).filter((day) =>
    isWorkday(day, crew.workdays),
  )
  const { round } = crew
  const onRound = round === undefined ? undefined : days.find((day) => isOnRound(day, round))
  const visitOn = onRound ?? days[0] ?? workdayFrom(to, crew.workdays) ?? to
  return { from, to: laterOf(to, visitOn), visitOn }
}

/** A window moved to begin on a day or after it; as long as before when it is `whole`, else cut. */
export function pushWindow(
  window: { readonly from: Day; readonly to: Day },
  earliest: Day,
  how: 'whole' | 'cut',
): { readonly from: Day; readonly to: Day } {
  if (window.from >= earliest) return window
  const length = daysBetween(window.from, window.to)
  return { from: earliest, to: how === 'whole' ? addDays(earliest, length) : laterOf(window.to, earliest) }
}
