import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { momentIn } from '#src/desk/clock.ts'
import type { Tools } from '#src/desk/command.ts'
import type { RecordDraft } from '#src/record/record.ts'
import type { Crew } from '#src/store/crews.ts'
import { draftNonce } from '#src/store/drafts.ts'

const HOUR_MS = 3_600_000
/** The last hour at which a phone may still ring (common practice, no source). */
const LAST = '21:30'

/** When an unfinished log reminds its author: at the end of the crew's hours, on the same day where that is still possible. */
export function reminderAt({ zone, settings }: Crew, today: string, nowMs: number): number {
  const evening = momentIn(zone, today, settings.endsAt)
  const last = momentIn(zone, today, LAST)
  return Math.max(Math.min(Math.max(evening, nowMs + HOUR_MS), last), nowMs + HOUR_MS / 2)
}

/** One reminder a draft; it is taken back when the draft is kept or dropped. */
export async function planReminder(draftId: number, draft: RecordDraft, tools: Tools): Promise<void> {
  const { store, crew, person, today, nowMs } = tools
  const site = draft.siteId === undefined ? undefined : await store.sites.get(draft.siteId)
  await store.deliveries.plan(
    {
      personId: person.id,
      command: 'log',
      reply: reply(
        'question',
        site === undefined ? say('logging.unfinished') : say('logging.unfinished-at', { site: site.name }),
        {
          audience: 'person',
          choices: [
            {
              label: say('logging.finish'),
              to: { command: 'log', options: { draft: String(draftId) } },
              look: 'main',
            },
          ],
          safety: { about: ['records'] },
        },
      ),
      nonce: draftNonce(crew.id, draftId),
      dueAtMs: reminderAt(crew, today, nowMs),
    },
    nowMs,
  )
}
