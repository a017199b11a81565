import { defineCommand } from '#src/desk/command.ts'
import { RateOptions } from '#src/visits/options.ts'
import { startRating } from '#src/visits/start.ts'

/** What a plot looks like today, by the record of its application. */
export default defineCommand({
  name: 'recheck rate',
  may: 'crew',
  options: RateOptions,
  start: (given, tools) => startRating(given, tools),
})
