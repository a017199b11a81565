import { z } from 'zod'
import { defineCommand } from '#src/desk/command.ts'
import { listLooks } from '#src/visits/due-list.ts'
import { LOOKS } from '#src/visits/looks.ts'
import { morningMessage } from '#src/visits/morning.ts'
import { DueOptions } from '#src/visits/options.ts'
import { nextLook } from '#src/visits/steps.ts'

/** Which plots want to be looked at: mine, those of a site, or whatever the crew has let go by. */
export default defineCommand({
  name: LOOKS,
  alone: true,
  may: 'crew',
  options: DueOptions,
  state: z.unknown(),
  start: (given, tools) => listLooks(given, tools),
  async next(state, event, tools) {
    const given = DueOptions.safeParse({ ...(state as object | null), ...(event.value as object | null) })
    return event.step === 'set' && given.success ? listLooks(given.data, tools) : nextLook(event, tools)
  },
  // A morning's message that was held up says what is open by the time it leaves.
  leaving: async (_planned, tools) => (await morningMessage(tools, LOOKS))?.reply ?? null,
})
