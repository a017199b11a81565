import { z } from 'zod'
import { LabelEntry } from '#src/label/entry.ts'
import { prepared } from './prepared.ts'
import { remembered } from './remembered.ts'
import type { Transaction } from './transaction.ts'

/** A revision goes live when a second person has retyped its rates; until then the older one stays in force. */
export const RevisionStatus = z.enum(['waiting', 'live', 'replaced', 'dropped'])
export type RevisionStatus = z.infer<typeof RevisionStatus>

export interface Revision {
  readonly id: number
  readonly entryId: number
  readonly revision: number
  readonly body: LabelEntry
  readonly status: RevisionStatus
  readonly enteredBy: number
  readonly confirmedBy: number | null
  readonly createdAtMs: number
}

/** A product of the label book with the revision in force, if one is. */
export interface BookEntry {
  readonly id: number
  readonly name: string
  /** The day on which a lead last held the entry against the label. */
  readonly confirmedOn: string | null
  readonly live: Revision | null
  readonly retired: boolean
}

interface EntryRow {
  readonly id: number
  readonly name: string
  readonly liveRevisionId: number | null
  readonly confirmedOn: string | null
  readonly retiredAtMs: number | null
}

const entryOf = (row: EntryRow, live: Revision | undefined): BookEntry => ({
  id: row.id,
  name: row.name,
  confirmedOn: row.confirmedOn,
  live: live ?? null,
  retired: row.retiredAtMs !== null,
})

type RevisionRow = {
  id: number
  entryId: number
  revision: number
  body: string
  status: string
  enteredBy: number
  confirmedBy: number | null
  createdAtMs: number
}

/** Every mix asks for its label; a long one has tens of thousands of letters. */
const bodyOf = remembered(LabelEntry, { most: 400, longest: 60_000 })

const readRevision = (row: RevisionRow): Revision => ({
  ...row,
  body: bodyOf(row.body),
  status: RevisionStatus.parse(row.status),
})

const REVISION = [
  'id',
  'entryId',
  'revision',
  'body',
  'status',
  'enteredBy',
  'confirmedBy',
  'createdAtMs',
] as const

const ENTRY = ['id', 'name', 'liveRevisionId', 'confirmedOn', 'retiredAtMs'] as const
const revisionById = prepared((db, crewId: number, id: number) =>
  db.selectFrom('labelRevisions').select(REVISION).where('crewId', '=', crewId).where('id', '=', id),
)
const entryById = prepared((db, crewId: number, id: number) =>
  db.selectFrom('labelEntries').select(ENTRY).where('crewId', '=', crewId).where('id', '=', id),
)
const entryByName = prepared((db, crewId: number, name: string) =>
  db
    .selectFrom('labelEntries')
    .select(ENTRY)
    .where('crewId', '=', crewId)
    .where('retiredAtMs', 'is', null)
    .where('name', '=', name),
)

export function labelsOf(db: Transaction, crewId: number) {
  const entries = () => db.selectFrom('labelEntries').select(ENTRY).where('crewId', '=', crewId)
  const revisions = () => db.selectFrom('labelRevisions').select(REVISION).where('crewId', '=', crewId)

  const withLive = async (row: EntryRow): Promise<BookEntry> => {
    const live =
      row.liveRevisionId === null ? undefined : (await revisionById(db, crewId, row.liveRevisionId)).rows[0]
    return entryOf(row, live && readRevision(live))
  }

  return {
    async createEntry(name: string, atMs: number): Promise<number> {
      const { id } = await db
        .insertInto('labelEntries')
        .values({
          crewId,
          name,
          liveRevisionId: null,
          confirmedOn: null,
          retiredAtMs: null,
          createdAtMs: atMs,
        })
        .returning('id')
        .executeTakeFirstOrThrow()
      return id
    },

    async addRevision(
      entryId: number,
      body: LabelEntry,
      by: { readonly personId: number; readonly atMs: number },
    ): Promise<Revision> {
      const last = await revisions()
        .where('entryId', '=', entryId)
        .orderBy('revision', 'desc')
        .limit(1)
        .executeTakeFirst()
      const row = await db
        .insertInto('labelRevisions')
        .values({
          crewId,
          entryId,
          revision: (last?.revision ?? 0) + 1,
          body: JSON.stringify(body),
          status: 'waiting',
          enteredBy: by.personId,
          confirmedBy: null,
          createdAtMs: by.atMs,
        })
        .returning(REVISION)
        .executeTakeFirstOrThrow()
      return readRevision(row)
    },

    /** Puts a revision in force; the one before it stays on file as replaced. */
    async makeLive(
      revision: Pick<Revision, 'id' | 'entryId'>,
      confirmed: { readonly by: number | null; readonly on: string },
    ): Promise<void> {
      await db
        .updateTable('labelRevisions')
        .set({ status: 'replaced' })
        .where('crewId', '=', crewId)
        .where('entryId', '=', revision.entryId)
        .where('status', 'in', ['live', 'waiting'])
        .execute()
      await db
        .updateTable('labelRevisions')
        .set({ status: 'live', confirmedBy: confirmed.by })
        .where('crewId', '=', crewId)
        .where('id', '=', revision.id)
        .execute()
      await db
        .updateTable('labelEntries')
        .set({ liveRevisionId: revision.id, confirmedOn: confirmed.on })
        .where('crewId', '=', crewId)
        .where('id', '=', revision.entryId)
        .execute()
    },

    async dropRevision(id: number): Promise<void> {
      await db
        .updateTable('labelRevisions')
        .set({ status: 'dropped' })
        .where('crewId', '=', crewId)
        .where('id', '=', id)
        .execute()
    },

    async confirm(entryId: number, on: string): Promise<void> {
      await db
        .updateTable('labelEntries')
        .set({ confirmedOn: on })
        .where('crewId', '=', crewId)
        .where('id', '=', entryId)
        .execute()
    },

    async retire(entryId: number, atMs: number): Promise<void> {
      await db
        .updateTable('labelEntries')
        .set({ retiredAtMs: atMs })
        .where('crewId', '=', crewId)
        .where('id', '=', entryId)
        .execute()
    },

    /** Products in use, by name. */
    async list(): Promise<BookEntry[]> {
      const rows = await entries().where('retiredAtMs', 'is', null).orderBy('name').execute()
      // In one statement for all of them, however many there are.
      const live = await db
        .selectFrom('labelEntries as entry')
        .innerJoin('labelRevisions as revision', (on) =>
          on.onRef('revision.crewId', '=', 'entry.crewId').onRef('revision.id', '=', 'entry.liveRevisionId'),
        )
        .select(REVISION.map((column) => `revision.${column}` as const))
        .where('entry.crewId', '=', crewId)
        .where('entry.retiredAtMs', 'is', null)
        .execute()
      const byId = new Map(live.map((row) => [row.id, readRevision(row)]))
      return rows.map((row) => entryOf(row, byId.get(row.liveRevisionId ?? 0)))
    },

    /** Names alone, for completing while typing. */
    async names(): Promise<string[]> {
      const rows = await entries().where('retiredAtMs', 'is', null).orderBy('name').execute()
      return rows.map((row) => row.name)
    },

    async findByName(name: string): Promise<BookEntry | undefined> {
      const [row] = (await entryByName(db, crewId, name)).rows
      return row === undefined ? undefined : withLive(row)
    },

    async get(id: number): Promise<BookEntry | undefined> {
      const [row] = (await entryById(db, crewId, id)).rows
      return row === undefined ? undefined : withLive(row)
    },

    /** Newest first. */
    async listRevisions(entryId: number): Promise<Revision[]> {
      const rows = await revisions().where('entryId', '=', entryId).orderBy('revision', 'desc').execute()
      return rows.map(readRevision)
    },

    async getRevision(id: number): Promise<Revision | undefined> {
      const [row] = (await revisionById(db, crewId, id)).rows
      return row === undefined ? undefined : readRevision(row)
    },

    /** What revisions say, by their ids; an id that this crew does not have is left out. */
    async bodiesOf(ids: readonly number[]): Promise<ReadonlyMap<number, LabelEntry>> {
      if (ids.length === 0) return new Map()
      const rows = await db
        .selectFrom('labelRevisions')
        .select(['id', 'body'])
        .where('crewId', '=', crewId)
        .where('id', 'in', [...ids])
        .execute()
      return new Map(rows.map(({ id, body }) => [id, bodyOf(body)]))
    },

    /** What is in force for products in use, by their names; a name without it is left out. */
    async liveBodiesOf(names: readonly string[]): Promise<ReadonlyMap<string, LabelEntry>> {
      if (names.length === 0) return new Map()
      const rows = await db
        .selectFrom('labelEntries as entry')
        .innerJoin('labelRevisions as revision', (on) =>
          on.onRef('revision.crewId', '=', 'entry.crewId').onRef('revision.id', '=', 'entry.liveRevisionId'),
        )
        .select(['entry.name', 'revision.body'])
        .where('entry.crewId', '=', crewId)
        .where('entry.retiredAtMs', 'is', null)
        .where('entry.name', 'in', [...names])
        .execute()
      return new Map(rows.map(({ name, body }) => [name, bodyOf(body)]))
    },
  }
}
