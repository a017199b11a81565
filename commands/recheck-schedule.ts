import { defineCommand } from '#src/desk/command.ts'
import { ScheduleOptions } from '#src/visits/options.ts'
import { nextSchedule, schedule } from '#src/visits/schedule.ts'

/** When to look at what, and when the crew can be told: shown, or changed by a lead. */
export default defineCommand({
  name: 'recheck schedule',
  may: 'lead',
  options: ScheduleOptions,
  start: (given, tools) => schedule(given, tools),
  next: (_state, event, tools) => nextSchedule(event, tools),
})
