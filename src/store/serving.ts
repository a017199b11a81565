import type { Database } from './open.ts'
import { readOnly, write } from './transaction.ts'

/** Who answers for some of the shards: the process that said so last. */
export interface Serving {
  /** This process answers from now on. */
  begin(): Promise<void>
  /** Whether another process has begun since, so that nothing is lost when this one falls silent. */
  hasSuccessor(): Promise<boolean>
}

/** @param part which shards; @param process a name that no other process has */
export function servingOf(database: Database, part: string, process: string): Serving {
  const name = `serving-${part}`
  return {
    begin: () =>
      write(database, async (db) => {
        await db
          .insertInto('meta')
          .values({ name, value: process })
          .onConflict((on) => on.column('name').doUpdateSet({ value: process }))
          .execute()
      }),
    hasSuccessor: async () => {
      const row = await readOnly(database, (db) =>
        db.selectFrom('meta').select('value').where('name', '=', name).executeTakeFirst(),
      )
      return row !== undefined && row.value !== process
    },
  }
}
