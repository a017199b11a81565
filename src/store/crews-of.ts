import type { Database } from './open.ts'
import type { Transaction } from './transaction.ts'

/** Crews of one messenger that have this person and have not removed them. */
export async function crewsOfPerson(
  { db }: Database,
  personKey: string,
  keyPrefix: string,
): Promise<{ readonly key: string; readonly name: string }[]> {
  return db
    .selectFrom('people')
    .innerJoin('crews', 'crews.id', 'people.crewId')
    .select(['crews.key', 'crews.name'])
    .where('people.key', '=', personKey)
    .where('people.removedAtMs', 'is', null)
    .where('crews.key', 'like', `${keyPrefix}%`)
    .orderBy('crews.id')
    .execute()
}

/** Every crew, the oldest first: for what looks after the whole store. */
export async function listCrews(db: Transaction): Promise<{ readonly id: number; readonly key: string }[]> {
  return db.selectFrom('crews').select(['id', 'key']).orderBy('id').execute()
}
