import type { Reply } from '#src/conversation/reply.ts'
import { addDays } from '#src/desk/clock.ts'
import type { Tools } from '#src/desk/command.ts'
import { planSummary } from './plan.ts'
import { sayWeek } from './say.ts'
import { isQuiet, weekOf } from './week.ts'

/**
 * The summary as it leaves: of all days since the Monday before the planned one, so that after some time without
 * sending there is one for all of it. It plans the one after. A week in which nothing happened and nothing is open says
 * nothing.
 */
export async function leavingSummary(planned: Reply, tools: Tools): Promise<Reply | null> {
  const { crew, person, today } = tools
  if (crew.settings.notices.summaryAt === null) return null
  await planSummary(tools)
  if (!person.leads) return null
  const monday = planned.facts.find(({ name }) => name === 'week')?.value
  const since = typeof monday === 'string' ? addDays(monday, -7) : addDays(today, -7)
  const week = await weekOf(since, addDays(today, -1), tools)
  return isQuiet(week) ? null : sayWeek(week)
}
