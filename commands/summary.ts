import { z } from 'zod'
import { addDays } from '#src/desk/clock.ts'
import { defineCommand } from '#src/desk/command.ts'
import { leavingSummary } from '#src/summary/leaving.ts'
import { planSummary } from '#src/summary/plan.ts'
import { sayWeek } from '#src/summary/say.ts'
import { weekOf } from '#src/summary/week.ts'

/** The last seven days and today: jobs, ground and products, what is open, and the newest hash of the records. */
export default defineCommand({
  name: 'summary',
  may: 'lead',
  options: z.strictObject({ days: z.int().min(1).max(400).optional() }),
  async start({ days = 7 }, tools) {
    await planSummary(tools)
    return { reply: sayWeek(await weekOf(addDays(tools.today, -days), tools.today, tools)) }
  },
  leaving: leavingSummary,
})
