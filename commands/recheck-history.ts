import { defineCommand } from '#src/desk/command.ts'
import { HistoryOptions } from '#src/visits/options.ts'
import { startHistory } from '#src/visits/start.ts'

/** An application and everything that was seen after it, on one card. */
export default defineCommand({
  name: 'recheck history',
  may: 'crew',
  options: HistoryOptions,
  state: HistoryOptions,
  start: (given, tools) => startHistory(given, tools),
  next: (given, event, tools) =>
    startHistory(HistoryOptions.parse({ ...given, ...(event.value as object) }), tools),
})
