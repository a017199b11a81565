import { prepared } from './prepared.ts'
import type { Transaction } from './transaction.ts'

export interface Incident {
  readonly id: number
  readonly personId: number
  readonly words: string
  readonly createdAtMs: number
}

const OPEN = ['id', 'personId', 'words', 'createdAtMs'] as const
const openOfPerson = prepared((db, crewId: number, personId: number) =>
  db
    .selectFrom('incidents')
    .select(OPEN)
    .where('crewId', '=', crewId)
    .where('closedAtMs', 'is', null)
    .where('personId', '=', personId)
    .orderBy('id'),
)

/** Words of exposure or illness. While one is open, this person's mixing and new records stop. */
export function incidentsOf(db: Transaction, crewId: number) {
  return {
    async open(incident: Omit<Incident, 'id'> & { readonly turnId: number }): Promise<number> {
      const { id } = await db
        .insertInto('incidents')
        .values({ crewId, ...incident, closedAtMs: null, closedBy: null })
        .returning('id')
        .executeTakeFirstOrThrow()
      return id
    },

    async listOpen(personId?: number): Promise<Incident[]> {
      if (personId !== undefined) return (await openOfPerson(db, crewId, personId)).rows
      return db
        .selectFrom('incidents')
        .select(OPEN)
        .where('crewId', '=', crewId)
        .where('closedAtMs', 'is', null)
        .orderBy('id')
        .execute()
    },

    async close(id: number, closedBy: number, atMs: number): Promise<void> {
      await db
        .updateTable('incidents')
        .set({ closedAtMs: atMs, closedBy })
        .where('crewId', '=', crewId)
        .where('id', '=', id)
        .where('closedAtMs', 'is', null)
        .execute()
    },
  }
}
