import { CompiledQuery, type Kysely } from 'kysely'
import { ask, lending } from './lent.ts'
import type { Database } from './open.ts'
import type { Tables } from './tables.ts'

/** What commands and repositories work on. They never see the database itself. */
export type Transaction = Kysely<Tables>

/** Runs work in one write transaction. Only the store may be awaited inside. */
export function write<T>(database: Database, work: (transaction: Transaction) => Promise<T>): Promise<T> {
  return database.db.transaction().execute((transaction) => lending(transaction, work))
}

/** A consistent view without the right to write; works on a database that cannot be written. */
export function readOnly<T>(database: Database, work: (transaction: Transaction) => Promise<T>): Promise<T> {
  return database.db
    .transaction()
    .setAccessMode('read only')
    .execute((transaction) => lending(transaction, work))
}

/** Everything as it stands at one moment, however long the reading takes. */
export function snapshot<T>(database: Database, work: (transaction: Transaction) => Promise<T>): Promise<T> {
  return database.db
    .transaction()
    .setIsolationLevel('repeatable read')
    .setAccessMode('read only')
    .execute((transaction) => lending(transaction, work))
}

const BEGIN = CompiledQuery.raw('savepoint command')
const RELEASE = CompiledQuery.raw('release savepoint command')
const ROLL_BACK = CompiledQuery.raw('rollback to savepoint command')

/** A failure took the whole transaction with it: nothing of this request may be written any more. */
export class TransactionLost extends Error {}

/**
 * Runs work so that a failure undoes it alone and leaves the rest of the transaction usable.
 * @throws what the work threw; TransactionLost, with that as its cause, if an engine rolled back everything at once.
 */
export async function savepoint<T>(transaction: Transaction, work: () => Promise<T>): Promise<T> {
  await ask(transaction, BEGIN)
  try {
    const done = await work()
    await ask(transaction, RELEASE)
    return done
  } catch (error) {
    // A full disk or an I/O error makes SQLite roll back the transaction itself, and the savepoint with it.
    await ask(transaction, ROLL_BACK).catch(() => {
      throw new TransactionLost('Cannot go on with this transaction: it was rolled back', { cause: error })
    })
    throw error
  }
}
