import type { Transaction } from './transaction.ts'

/** Rates that the label book has refused, so that the same rate typed off a label is shown to the lead. */
export function refusedRatesOf(db: Transaction, crewId: number) {
  return {
    async add(refused: {
      readonly personId: number
      readonly product: string
      readonly rate: string
      readonly atMs: number
    }): Promise<void> {
      await db
        .insertInto('refusedRates')
        .values({ crewId, ...refused })
        .execute()
    },

    async find(rate: string): Promise<{ product: string; atMs: number } | undefined> {
      return db
        .selectFrom('refusedRates')
        .select(['product', 'atMs'])
        .where('crewId', '=', crewId)
        .where('rate', '=', rate)
        .orderBy('id', 'desc')
        .limit(1)
        .executeTakeFirst()
    },
  }
}
