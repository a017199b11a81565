import { say, type Text } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { compareRevisions, figuresToRetype } from '#src/label/revision.ts'
import type { Revision } from '#src/store/labels.ts'

export interface Kept {
  readonly revision: Revision
  /** True when nothing that a second person must retype has changed. */
  readonly live: boolean
  /** What looks like a slip of typing between the old revision and the new one. */
  readonly slips: readonly Text[]
}

/** Keeps an entry as a new revision. New or changed rates wait for a second person; everything else is live at once. */
export async function keepEntry(entry: LabelEntry, tools: Tools): Promise<Kept> {
  const { store, person, nowMs, today } = tools
  const known = await store.labels.findByName(entry.name)
  const entryId = known?.id ?? (await store.labels.createEntry(entry.name, nowMs))
  const before = known?.live?.body ?? null
  const revision = await store.labels.addRevision(entryId, entry, { personId: person.id, atMs: nowMs })
  const live = figuresToRetype(entry, before).length === 0
  if (live) await store.labels.makeLive(revision, { by: null, on: today })
  await tools.namesChanged()
  const changes = before === null ? [] : compareRevisions(before, entry)
  return {
    revision,
    live,
    slips: changes.flatMap(({ message }) => (message === undefined ? [] : [say(message.id, message.with)])),
  }
}

/** The newest revision that waits for a second person. */
export async function waitingRevision(tools: Tools, entryId: number): Promise<Revision | undefined> {
  return (await tools.store.labels.listRevisions(entryId)).find(({ status }) => status === 'waiting')
}
