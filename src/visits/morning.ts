import type { Reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Morning } from '#src/recheck/remind.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { KeptVisits } from '#src/store/visits.ts'
import { dueReply } from './due-list.ts'
import { lookCard } from './look-card.ts'
import { openVisit } from './open-visit.ts'

/**
 * What one person reads in the morning. A single look opens right there, with its form; several are a list with a press
 * for each.
 * @param unanswered who has not answered, for a lead
 */
export async function morningReply(
  morning: Morning,
  visits: readonly KeptVisits[],
  unanswered: readonly Text[],
  store: CrewStore,
): Promise<Reply> {
  const due = morning.looks.map((one) => one.due)
  const notes = [
    ...(morning.kind === 'summary' ? [say('visits.summary')] : []),
    ...(morning.looks.some(({ turn }) => turn === 'owner-again') ? [say('visits.again')] : []),
    ...new Map(unanswered.map((one) => [JSON.stringify(one), one])).values(),
  ]
  const [only, ...others] = due
  const one =
    only !== undefined && others.length === 0
      ? await oneLook(Number(only.plan), morning, visits, store)
      : null
  const reply = one ?? (await dueReply(say('visits.due', { count: due.length }), due, visits, { store }))
  return { ...reply, outcome: 'question', lines: [...notes, ...reply.lines], audience: 'person' }
}

async function oneLook(
  id: number,
  { day }: Morning,
  visits: readonly KeptVisits[],
  store: CrewStore,
): Promise<Reply | null> {
  const kept = visits.find((one) => one.id === id)
  if (kept?.walkId != null) return null
  const open = await openVisit(id, { store })
  return open.ok ? lookCard(open.value, day) : null
}
