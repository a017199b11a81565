import type { DatabaseConnection, Kysely, QueryResult } from 'kysely'
import { rowInCode } from './naming.ts'
import type { Tables } from './tables.ts'

/** The connection that a transaction holds, as long as it is at work. */
const lent = new WeakMap<Kysely<Tables>, DatabaseConnection>()

/**
 * Runs work while statements that are in words already reach the transaction's connection without kysely's layers,
 * which take longer than SQLite takes to answer. Afterwards the transaction refuses them like all others.
 */
export async function lending<T>(
  transaction: Kysely<Tables>,
  work: (transaction: Kysely<Tables>) => Promise<T>,
): Promise<T> {
  const connection = await transaction.getExecutor().provideConnection(async (held) => held)
  lent.set(transaction, connection)
  try {
    return await work(transaction)
  } finally {
    lent.delete(transaction)
  }
}

/** Asks a statement in words, of a transaction or of the database itself. */
export async function ask<Row>(
  db: Kysely<Tables>,
  query: Parameters<DatabaseConnection['executeQuery']>[0],
): Promise<QueryResult<Row>> {
  const connection = lent.get(db)
  if (connection === undefined) return db.executeQuery<Row>(query as never)
  const result = await connection.executeQuery<Row>(query)
  if (result.rows.length === 0) return result
  return { ...result, rows: result.rows.map((row) => rowInCode(row as Record<string, unknown>) as Row) }
}
