import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { addDays, dayIn, momentIn } from '#src/desk/clock.ts'
import type { Tools } from '#src/desk/command.ts'
import { weekdayOf } from '#src/recheck/workdays.ts'

type PlanTools = Pick<Tools, 'store' | 'crew' | 'nowMs' | 'canWrite'>

const nonceOf = (crewId: number, monday: string, leadId: number) => `${crewId}-week-${monday}-${leadId}`

/** The next Monday on which a summary is due, with its moment: today's while its hour has not come. */
export function nextMonday(
  nowMs: number,
  zone: string,
  time: string,
): { readonly monday: string; readonly dueAtMs: number } {
  const today = dayIn(zone, nowMs)
  const ahead = (8 - weekdayOf(today)) % 7
  for (const monday of [addDays(today, ahead), addDays(today, ahead + 7)]) {
    const dueAtMs = momentIn(zone, monday, time)
    if (dueAtMs > nowMs) return { monday, dueAtMs }
  }
  throw new RangeError('Cannot find a Monday in two weeks')
}

/** Plans the next summary for each lead, where the crew wants one: one for each week and lead, however often called. */
export async function planSummary({ store, crew, nowMs, canWrite }: PlanTools): Promise<void> {
  const { summaryAt } = crew.settings.notices
  if (summaryAt === null || !canWrite) return
  const { monday, dueAtMs } = nextMonday(nowMs, crew.zone, summaryAt)
  for (const { id } of await store.people.leads())
    await store.deliveries.plan(
      {
        personId: id,
        command: 'summary',
        nonce: nonceOf(crew.id, monday, id),
        dueAtMs,
        // Replaced by the figures of the day on which it leaves.
        reply: reply('answer', say('summary.planned', { day: { day: monday } }), {
          facts: [{ name: 'week', value: monday }],
          audience: 'person',
          safety: { about: ['records'] },
        }),
      },
      nowMs,
    )
}

/** After the hour has been changed, what is planned for the next Mondays gives way to the new one. */
export async function planSummaryAnew(tools: PlanTools): Promise<void> {
  const { store, crew, nowMs } = tools
  const { monday } = nextMonday(nowMs, crew.zone, '00:00')
  const mondays = [addDays(monday, -7), monday, addDays(monday, 7)]
  const people = await store.people.list()
  await store.deliveries.withdraw(people.flatMap(({ id }) => mondays.map((one) => nonceOf(crew.id, one, id))))
  await planSummary(tools)
}
