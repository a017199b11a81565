import { defineCommand } from '#src/desk/command.ts'
import { nextKey } from '#src/identify/next.ts'
import { KeyOptions } from '#src/identify/options.ts'
import { startKey } from '#src/identify/start.ts'
import { State } from '#src/identify/state.ts'

/** Turf or weed? A walk of small questions that holds rather than guesses. */
export default defineCommand({
  name: 'key',
  may: 'crew',
  options: KeyOptions,
  state: State,
  start: (given, tools) => startKey(given, tools),
  next: (state, event, tools) => nextKey(state, event, tools),
})
