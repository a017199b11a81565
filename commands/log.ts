import { defineCommand } from '#src/desk/command.ts'
import { beginLog } from '#src/logging/begin.ts'
import { nextOfLog } from '#src/logging/go-on.ts'
import { LogOptions, LogState } from '#src/logging/options.ts'

/** Writes an application down in short steps: from a mix with one press, or from nothing. */
export default defineCommand({
  name: 'log',
  may: 'crew',
  options: LogOptions,
  state: LogState,
  start: (given, tools) => beginLog(given, tools),
  next: nextOfLog,
})
