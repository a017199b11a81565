import { z } from 'zod'
import { defineCommand } from '#src/desk/command.ts'
import { beginAmend, nextOfAmend } from '#src/logging/amending.ts'

/** Changes a record by an amendment, with a reason: what stood before stays beside it. Voiding is one too. */
export default defineCommand({
  name: 'record amend',
  may: 'crew',
  options: z.strictObject({ record: z.string().min(1).max(20) }),
  state: z.strictObject({ record: z.int() }),
  start: ({ record }, tools) => beginAmend(record, tools),
  next: (state, event, tools) => nextOfAmend(state, event, tools),
})
