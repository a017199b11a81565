import { reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import type { Verdict } from '#src/label/verdict.ts'
import type { Named } from './resolve.ts'

/** One message to each lead; the same `about` is told once, however often it comes up. */
export async function tellLeads(title: Text, about: string, tools: Tools): Promise<void> {
  const { store, nowMs, crew, canWrite } = tools
  if (!canWrite) return
  for (const lead of await store.people.leads())
    await store.deliveries.plan(
      {
        personId: lead.id,
        command: 'answers',
        reply: reply('heads-up', title, { audience: 'person', safety: { about: ['records'] } }),
        nonce: `${crew.id}-${about}-${lead.id}`,
        dueAtMs: nowMs,
      },
      nowMs,
    )
}

const LOOK_AGAIN = new Set(['label.confirm-soon', 'label.confirm-due', 'label.confirm-overdue'])

/** A lead hears once, in good time, that an entry should be held against its label again. */
export async function tellOfOldEntry({ product }: Named, verdict: Verdict, tools: Tools): Promise<void> {
  const reason = verdict.reasons.find(({ id }) => LOOK_AGAIN.has(id))
  if (product === null || reason === undefined) return
  const title = say('mixing.lead-look-again', { product: product.name, reason: say(reason.id, reason.with) })
  await tellLeads(title, `${reason.id}-${product.id}-${product.confirmedOn ?? ''}`, tools)
}
