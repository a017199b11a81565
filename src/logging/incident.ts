import { say } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import { tellLeads } from '#src/mixing/tell-leads.ts'
import type { RecordDraft } from '#src/record/record.ts'
import { freeText } from './fields/field.ts'

/**
 * Something unusual that hurt nobody: kept and told, and no reason to stop this person's mixing. Words of exposure never
 * come this far; the desk answers them with the emergency card.
 */
export async function openIncident(
  words: string,
  tools: Tools,
): Promise<NonNullable<RecordDraft['unusual']>> {
  const { store, person, turn, nowMs } = tools
  const typed = words.trim().slice(0, 2000)
  const id = await store.incidents.open({
    personId: person.id,
    turnId: turn.id,
    words: typed.slice(0, 200),
    createdAtMs: nowMs,
  })
  await store.incidents.close(id, person.id, nowMs)
  await tellLeads(
    say('logging.lead-unusual', { person: person.name, words: typed.slice(0, 300) }),
    `unusual-${id}`,
    tools,
  )
  return {
    happened: true,
    incidentId: id,
    ...(typed === '' ? {} : { words: freeText(typed, tools) }),
  }
}
