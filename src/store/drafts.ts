import { z } from 'zod'
import { RecordDraft } from '#src/record/record.ts'
import { prepared } from './prepared.ts'
import { readerAndWriter } from './remembered.ts'
import type { Transaction } from './transaction.ts'

/** `open`: somebody is at it. `kept`: it has become a record. `dropped`: nothing was sprayed, or it was a mistake. */
const DraftStatus = z.enum(['open', 'kept', 'dropped'])
export type DraftStatus = z.infer<typeof DraftStatus>

export interface KeptDraft {
  readonly id: number
  readonly personId: number
  readonly mixId: number | null
  readonly status: DraftStatus
  readonly draft: RecordDraft
}

const COLUMNS = ['id', 'personId', 'mixId', 'status', 'body'] as const

/** Nonce of the one reminder of a draft. */
export const draftNonce = (crewId: number, draftId: number) => `${crewId}-draft-${draftId}`

const createDraft = prepared(
  (db, crewId: number, personId: number, mixId: number | null, body: string, atMs: number) =>
    db
      .insertInto('drafts')
      .values({ crewId, personId, mixId, status: 'open', body, changedAtMs: atMs, createdAtMs: atMs })
      .returning(COLUMNS),
)
const draftById = prepared((db, crewId: number, id: number) =>
  db.selectFrom('drafts').select(COLUMNS).where('crewId', '=', crewId).where('id', '=', id),
)
const changeDraft = prepared((db, crewId: number, id: number, body: string, changedAtMs: number) =>
  db
    .updateTable('drafts')
    .set({ body, changedAtMs })
    .where('crewId', '=', crewId)
    .where('id', '=', id)
    .where('status', '=', 'open'),
)

/** Logs on which somebody is at work in this minute. */
const MOST_BODIES = 100
const bodies = readerAndWriter(RecordDraft, MOST_BODIES)

/** Logs on their way: every step is kept, so that a lost signal or a restart loses nothing. */
export function draftsOf(db: Transaction, crewId: number) {
  const all = () => db.selectFrom('drafts').select(COLUMNS).where('crewId', '=', crewId)
  const read = ({
    body,
    ...row
  }: {
    id: number
    personId: number
    mixId: number | null
    status: string
    body: string
  }): KeptDraft => ({
    ...row,
    status: DraftStatus.parse(row.status),
    draft: bodies.read(body),
  })

  return {
    async create(draft: Pick<KeptDraft, 'personId' | 'mixId' | 'draft'>, atMs: number): Promise<KeptDraft> {
      const body = bodies.write(draft.draft)
      const [row] = (await createDraft(db, crewId, draft.personId, draft.mixId, body, atMs)).rows
      if (row === undefined) throw new Error('Cannot find the draft just made')
      return read(row)
    },

    async get(id: number): Promise<KeptDraft | undefined> {
      const [row] = (await draftById(db, crewId, id)).rows
      return row === undefined ? undefined : read(row)
    },

    /** The newest first. */
    async listOpen(personId: number, limit: number): Promise<KeptDraft[]> {
      const rows = await all()
        .where('personId', '=', personId)
        .where('status', '=', 'open')
        .orderBy('id', 'desc')
        .limit(limit)
        .execute()
      return rows.map(read)
    },

    async update(id: number, draft: RecordDraft, atMs: number): Promise<void> {
      await changeDraft(db, crewId, id, bodies.write(draft), atMs)
    },

    /** True for whoever comes first; its reminder, if not sent yet, goes with it. */
    async close(id: number, status: 'kept' | 'dropped', atMs: number): Promise<boolean> {
      const closed = await db
        .updateTable('drafts')
        .set({ status, changedAtMs: atMs })
        .where('crewId', '=', crewId)
        .where('id', '=', id)
        .where('status', '=', 'open')
        .returning('id')
        .executeTakeFirst()
      if (closed === undefined) return false
      await db
        .deleteFrom('deliveries')
        .where('crewId', '=', crewId)
        .where('nonce', '=', draftNonce(crewId, id))
        .where('sentAtMs', 'is', null)
        .execute()
      return true
    },
  }
}
