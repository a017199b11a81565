import { dayIn, momentIn } from '#src/desk/clock.ts'
import type { DecideSettings } from '#src/efficacy/decide-settings.ts'
import { decideDefaults } from '#src/efficacy/decide-settings.ts'
import type { CrewDays } from '#src/recheck/place.ts'
import type { ScheduleTable } from '#src/recheck/table.ts'
import type { WorkTime, ZoneTime } from '#src/recheck/when.ts'
import { workdaysOf } from '#src/recheck/workdays.ts'
import type { Crew } from '#src/store/crews.ts'
import type { Person } from '#src/store/people.ts'
import { readSchedule } from '../../data/recheck/load.ts'

/** Days and times as the program's own clock reads them. */
export const zoneTime: ZoneTime = { momentIn, dayIn }

type Days = Pick<Person, 'settings'>

/** When looks fit the crew's work, or that of whoever is to look. */
export function crewDaysOf({ settings }: Pick<Crew, 'settings'>, person?: Days): CrewDays {
  const { workdays, round } = settings
  return {
    workdays: person === undefined ? workdays : workdaysOf(workdays, person.settings.days),
    ...(round === null ? {} : { round }),
  }
}

/** When messages may reach somebody of the crew. */
export function workTimeOf({ zone, settings }: Crew, person: Days): WorkTime {
  const { startsAt, endsAt, workdays } = settings
  return { zone, starts: startsAt, ends: endsAt, workdays: workdaysOf(workdays, person.settings.days) }
}

export function decideSettingsOf({ settings }: Crew): DecideSettings {
  const { donePercent, leastInjuryStep } = settings
  return { ...decideDefaults, donePercent: String(donePercent), leastInjuryStep }
}

let usual: ScheduleTable | null = null

/** The usual schedule of looks with the windows that this crew's leads have changed. */
export function scheduleOf({ settings }: Pick<Crew, 'settings'>): ScheduleTable {
  usual ??= readSchedule()
  return usual.map((row) => ({
    ...row,
    looks: row.looks.map((look) => {
      const own = settings.lookWindows.find((one) => one.row === row.id && one.look === look.id)
      return own === undefined ? look : { ...look, fromDay: own.fromDay, toDay: own.toDay }
    }),
  }))
}
