import { defineCommand } from '#src/desk/command.ts'
import { nextPlots, startPlots } from '#src/visits/mark-plots.ts'
import { PlotsOptions } from '#src/visits/options.ts'

/** Marks spots of a treated area to come back to, and one left untreated to compare with. */
export default defineCommand({
  name: 'recheck plots',
  may: 'crew',
  options: PlotsOptions,
  start: (given, tools) => startPlots(given, tools),
  next: (_state, event, tools) => nextPlots(event, tools),
})
