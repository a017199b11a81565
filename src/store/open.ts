import { CamelCasePlugin, Kysely, PostgresDialect } from 'kysely'
import pg from 'pg'
import { type EngineWords, postgresWords, sqliteWords } from './dialect.ts'
import { migrate, type Purpose } from './migrate.ts'
import { SqliteDialect, type SqliteOptions } from './sqlite.ts'
import type { Tables } from './tables.ts'

export interface Database {
  readonly db: Kysely<Tables>
  readonly words: EngineWords
  close(): Promise<void>
}

export type DatabaseAddress =
  | ({ readonly engine: 'sqlite' } & SqliteOptions)
  | {
      readonly engine: 'postgres'
      readonly url: string
      readonly connections?: number
      readonly schema?: string
    }

/** Milliseconds and ids fit a double exactly; PostgreSQL would hand them over as text. */
pg.types.setTypeParser(pg.types.builtins.INT8, Number)

/** Opens the store and brings its schema up to date. @throws WrongDatabase, or what the engine says. */
export async function openDatabase(address: DatabaseAddress, purpose: Purpose): Promise<Database> {
  const words = address.engine === 'sqlite' ? sqliteWords : postgresWords
  const db = new Kysely<Tables>({ dialect: dialectOf(address), plugins: [new CamelCasePlugin()] })
  try {
    await migrate(db, words, purpose)
  } catch (error) {
    await db.destroy()
    throw error
  }
  return { db, words, close: () => db.destroy() }
}

function dialectOf(address: DatabaseAddress) {
  if (address.engine === 'sqlite') return new SqliteDialect(address)
  const pool = new pg.Pool({
    connectionString: address.url,
    max: address.connections ?? 10,
    ...(address.schema === undefined ? {} : { options: `-c search_path=${address.schema}` }),
  })
  // An idle connection that the server closes is replaced at the next use; unheard, it would end the process.
  pool.on('error', () => {})
  return new PostgresDialect({ pool })
}
