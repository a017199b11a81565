import type { Reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'

/**
 * A notice as it leaves. Nothing leaves for a record that is void, beside the message that says so; a task whose time
 * went by while nothing could be sent is called late.
 */
export async function leavingNotice(planned: Reply, { store, nowMs, crew }: Tools): Promise<Reply | null> {
  const fact = (name: string) => planned.facts.find((one) => one.name === name)?.value
  const number = fact('record')
  const row = typeof number === 'number' ? await store.records.find(number) : undefined
  if (row !== undefined && row.voidedAtMs !== null && planned.title.say !== 'notices.voided') return null
  const due = fact('due')
  const dueMs = typeof due === 'string' ? Date.parse(due) : Number.NaN
  const place = planned.title.with?.place
  if (fact('notice') !== 'water-in' || !(dueMs < nowMs) || place === undefined) return planned
  const at = { atMs: dueMs, zone: crew.zone, style: 'date-time' } as const
  return { ...planned, outcome: 'heads-up', title: say('notices.water-in-late', { place, at }) }
}
