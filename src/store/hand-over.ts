import { existsSync } from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'
import { sql } from 'kysely'
import { MOVED, WrongDatabase } from './migrate.ts'
import { type Database, type DatabaseAddress, lookInto } from './open.ts'
import { Database as Sqlite } from './sqlite-engine.ts'

/** A store that nobody else writes until it is let go. */
export interface Held {
  /** Says in the store itself that it was moved. */
  markMoved(to: string): Promise<void>
  release(): Promise<void>
}

/**
 * Takes a store for oneself, to move it.
 * @throws WrongDatabase when somebody has it open
 */
export function holdAlone(address: DatabaseAddress): Promise<Held> {
  return address.engine === 'sqlite' ? holdFile(address.path) : holdServer(address)
}

const IN_USE = 'Cannot move the database: somebody has it open. Stop the bot first.'
const WAIT_MS = 500

async function holdFile(path: string): Promise<Held> {
  if (!existsSync(path)) throw new WrongDatabase(`Cannot move the database: there is none at ${path}`)
  const db = new Sqlite(path, { timeout: WAIT_MS })
  try {
    // Leaves one file behind, with no journal beside it; refused while anybody else has it open.
    db.pragma('journal_mode = delete')
    db.exec('begin immediate')
  } catch (error) {
    db.close()
    const isBusy = error instanceof Sqlite.SqliteError && error.code.startsWith('SQLITE_BUSY')
    throw isBusy ? new WrongDatabase(IN_USE) : error
  }
  return {
    async markMoved(to) {
      db.prepare('insert into meta (name, value) values (?, ?)').run(MOVED, to)
    },
    async release() {
      db.exec('commit')
      db.close()
    },
  }
}

async function holdServer(address: Extract<DatabaseAddress, { engine: 'postgres' }>): Promise<Held> {
  const store = await lookInto({ ...address, connections: 1 })
  try {
    await refuseUsed(store)
  } catch (error) {
    await store.close()
    throw error
  }
  return {
    async markMoved(to) {
      await store.db.insertInto('meta').values({ name: MOVED, value: to }).execute()
    },
    release: () => store.close(),
  }
}

/** Whoever else is connected to the same database may write to it. */
async function refuseUsed({ db }: Database): Promise<void> {
  // Whoever has just left is seen for a moment still.
  for (const untilMs = performance.now() + WAIT_MS; ; await pause(50)) {
    const { rows } = await sql`
      select 1 from pg_stat_activity
      where datname = current_database() and backend_type = 'client backend' and pid <> pg_backend_pid()
      limit 1
    `.execute(db)
    if (rows.length === 0) return
    if (performance.now() > untilMs) throw new WrongDatabase(IN_USE)
  }
}
