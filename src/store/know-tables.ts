import { sql } from 'kysely'
import type { Database } from './open.ts'
import { write } from './transaction.ts'

/**
 * Lets SQLite look at tables that have grown much since it last did, a few thousand rows of each (sqlite.org/pragma.html,
 * "optimize": 0x02 look, 0x10 at so much only, 0x10000 at all tables). Without it its plans are guesses, and some read
 * all rows of a crew for the few that are wanted. PostgreSQL looks by itself.
 */
export async function knowTables(database: Database): Promise<void> {
  if (database.words.engine !== 'sqlite') return
  await write(database, (db) => sql`pragma optimize = 0x10012`.execute(db))
}

/** Not while a start or the first who ask are waited for. */
const FIRST_MS = 60_000
const EVERY_MS = 6 * 3_600_000

/** Looks at the tables soon after a start, and then some times a day. Returns what ends it, after a look under way. */
export function keepKnowingTables(
  database: Database,
  reportError: (error: unknown, about: Readonly<Record<string, unknown>>) => void,
  [firstMs, everyMs]: readonly [number, number] = [FIRST_MS, EVERY_MS],
): () => Promise<void> {
  let looking: Promise<void> = Promise.resolve()
  let timer = setTimeout(look, firstMs).unref()
  function look() {
    // A full disk or another process at work: the next look does it.
    looking = knowTables(database).catch((error: unknown) =>
      reportError(error, { about: 'looking at tables' }),
    )
    timer = setTimeout(look, everyMs).unref()
  }
  return async () => {
    clearTimeout(timer)
    await looking
  }
}
