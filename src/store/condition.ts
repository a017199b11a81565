import type { Database } from './open.ts'
import { readOnly, write } from './transaction.ts'

/** How the store is: whether it takes a row to disk, how long that took, and what should have left by now. */
export interface StoreCondition {
  readonly ok: boolean
  readonly writeMs: number | null
  /** Messages that are due, were not sent, and that nobody is sending. */
  readonly overdue: number
  /** For how long the oldest of them has been due, ms. */
  readonly lagMs: number
}

/** Writes one row and reads what is due. Never throws: a store that cannot be used is what is asked about. */
export async function storeCondition(database: Database, nowMs: number): Promise<StoreCondition> {
  const writeMs = await timeOfWrite(database)
  try {
    const due = await readOnly(database, (db) =>
      db
        .selectFrom('deliveries')
        .select(({ fn }) => [fn.countAll<number>().as('count'), fn.min('dueAtMs').as('oldest')])
        .where('sentAtMs', 'is', null)
        .where('dueAtMs', '<=', nowMs)
        .where((row) => row.or([row('claimedUntilMs', 'is', null), row('claimedUntilMs', '<=', nowMs)]))
        .executeTakeFirstOrThrow(),
    )
    const oldest = due.oldest === null ? nowMs : Number(due.oldest)
    return { ok: writeMs !== null, writeMs, overdue: Number(due.count), lagMs: nowMs - oldest }
  } catch {
    return { ok: false, writeMs, overdue: 0, lagMs: 0 }
  }
}

async function timeOfWrite(database: Database): Promise<number | null> {
  const began = performance.now()
  try {
    await write(database, (db) =>
      db
        .updateTable('meta')
        .set((row) => ({ value: row.ref('value') }))
        .where('name', '=', 'purpose')
        .execute(),
    )
    return Math.round((performance.now() - began) * 10) / 10
  } catch {
    return null
  }
}
