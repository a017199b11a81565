import { InjuryScale } from '#src/efficacy/injury.ts'
import { readData } from '#src/project.ts'
import { ScheduleTable } from '#src/recheck/table.ts'

/** The default schedule of looks. Throws when the file does not fit its schema. */
export function readSchedule(): ScheduleTable {
  return ScheduleTable.parse(JSON.parse(readData('recheck/schedule.json')))
}

/** The steps of turf injury. Throws when the file does not fit its schema. */
export function readInjuryScale(): InjuryScale {
  return InjuryScale.parse(JSON.parse(readData('recheck/injury.json')))
}
