import { prepared } from './prepared.ts'
import type { Transaction } from './transaction.ts'

export interface HoldLift {
  readonly entryId: number
  readonly areaId: number
  readonly day: string
  readonly personId: number
  readonly reason: string
}

const newestLift = prepared((db, crewId: number, entryId: number, areaId: number, day: string) =>
  db
    .selectFrom('holdLifts')
    .select(['entryId', 'areaId', 'day', 'personId', 'reason'])
    .where('crewId', '=', crewId)
    .where('entryId', '=', entryId)
    .where('areaId', '=', areaId)
    .where('day', '=', day)
    .orderBy('id', 'desc')
    .limit(1),
)

/** A licensed lead's word, with its written reason: for one product, one area and one day. */
export function holdLiftsOf(db: Transaction, crewId: number) {
  return {
    async add(lift: HoldLift, atMs: number): Promise<void> {
      await db
        .insertInto('holdLifts')
        .values({ crewId, ...lift, createdAtMs: atMs })
        .execute()
    },

    async find(entryId: number, areaId: number, day: string): Promise<HoldLift | undefined> {
      return (await newestLift(db, crewId, entryId, areaId, day)).rows[0]
    },
  }
}
