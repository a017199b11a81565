import { existsSync } from 'node:fs'
import { Kysely, PostgresDialect, sql } from 'kysely'
import { type EngineWords, postgresWords, sqliteWords } from './dialect.ts'
import { MOVED, migrate, type Purpose, refuseNewer, WrongDatabase } from './migrate.ts'
import { namingStatements } from './named-statements.ts'
import { NamesOfCode, PostgresWriter } from './naming.ts'
import { ReadOnceDriver } from './read-once.ts'
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

/**
 * Opens the store and brings its schema up to date, or to an earlier one on its way back from a backup.
 * @throws WrongDatabase, or what the engine says.
 */
export async function openDatabase(
  address: DatabaseAddress,
  purpose: Purpose,
  upTo?: number,
): Promise<Database> {
  const words = address.engine === 'sqlite' ? sqliteWords : postgresWords
  const db = new Kysely<Tables>({ dialect: await dialectOf(address), plugins: [new NamesOfCode()] })
  try {
    await whileBusy(() => migrate(db, words, purpose, upTo))
  } catch (error) {
    await db.destroy()
    throw address.engine === 'postgres' ? explained(error) : error
  }
  return { db, words, close: () => db.destroy() }
}

/** What a server says that cannot be used, in a sentence without its address, which may hold a password. */
function explained(error: unknown): unknown {
  const first = error instanceof AggregateError ? error.errors[0] : error
  const code = first instanceof Error && 'code' in first ? String(first.code) : ''
  const why = NO_SERVER[code]
  return why === undefined
    ? error
    : new WrongDatabase(`DATABASE_URL: ${why}. The server says: ${code}`, { cause: error })
}

/** Codes of the network and of PostgreSQL (its manual, appendix A). */
const NO_SERVER: Readonly<Record<string, string>> = {
  ECONNREFUSED: 'no database server listens there',
  ENOTFOUND: 'there is no machine of that name',
  EAI_AGAIN: 'the name of the machine cannot be looked up now',
  ETIMEDOUT: 'the database server does not answer',
  ECONNRESET: 'the database server has hung up',
  '28000': 'the database server does not let this user in',
  '28P01': 'the database server refuses user or password',
  '3D000': 'there is no database of that name',
  '42501': 'this user has no right to make tables there',
  '53300': 'the database server has no connection left',
  '57P03': 'the database server is starting or stopping',
}

/** Tries for some seconds more while somebody else opens the store too, and perhaps brings it up to date. */
async function whileBusy(open: () => Promise<void>): Promise<void> {
  for (let attempt = 1; ; attempt += 1)
    try {
      return await open()
    } catch (error) {
      if (attempt === OPENING_ATTEMPTS || !isLocked(error)) throw error
    }
}
const OPENING_ATTEMPTS = 5

const isLocked = (error: unknown) =>
  error instanceof Error && 'code' in error && String(error.code).startsWith('SQLITE_BUSY')

/** A store that is only looked at: as it stands, without bringing it up to date. */
export interface LookedAt extends Database {
  readonly schema: number
  readonly purpose: Purpose
  /** Its rows went to another store. */
  readonly hasMoved: boolean
}

/** Opens a store without changing it. @throws WrongDatabase if a newer program wrote it, or it is none of ours */
export async function lookInto(address: DatabaseAddress): Promise<LookedAt> {
  const words = address.engine === 'sqlite' ? sqliteWords : postgresWords
  const asked = address.engine === 'sqlite' ? { ...address, readonly: true } : address
  const db = new Kysely<Tables>({ dialect: await dialectOf(asked), plugins: [new NamesOfCode()] })
  try {
    const meta = new Map(
      (await db.selectFrom('meta').selectAll().execute()).map(({ name, value }) => [name, value]),
    )
    const schema = Number(meta.get('schema'))
    const purpose = meta.get('purpose')
    if (!Number.isInteger(schema) || (purpose !== 'live' && purpose !== 'practice'))
      throw new WrongDatabase('Cannot open the database: it does not say whose it is')
    refuseNewer(schema)
    return { db, words, schema, purpose, hasMoved: meta.has(MOVED), close: () => db.destroy() }
  } catch (error) {
    await db.destroy()
    throw error
  }
}

/** Files of a SQLite store, or what was left of it beside it: a journal would be played into whatever comes next. */
export const filesOfSqlite = (file: string): readonly string[] =>
  [file, `${file}-wal`, `${file}-shm`].filter((one) => existsSync(one))

/** Whether nobody has put anything there yet. */
export async function isEmptyStore(address: DatabaseAddress): Promise<boolean> {
  if (address.engine === 'sqlite')
    return ![address.path, `${address.path}-wal`].some((file) => existsSync(file))
  const db = new Kysely<Tables>({ dialect: await dialectOf(address) })
  try {
    const { rows } = await sql`
      select 1 from information_schema.tables where table_schema = current_schema() limit 1
    `.execute(db)
    return rows.length === 0
  } finally {
    await db.destroy()
  }
}

async function dialectOf(address: DatabaseAddress) {
  if (address.engine === 'sqlite') return new SqliteDialect(address)
  // Loaded only when it is wanted: a crew on SQLite starts without it.
  const { default: pg } = await import('pg')
  // Milliseconds and ids fit a double exactly; PostgreSQL would hand them over as text.
  pg.types.setTypeParser(pg.types.builtins.INT8, Number)
  const pool = new pg.Pool({
    connectionString: address.url,
    max: address.connections ?? 10,
    ...(address.schema === undefined ? {} : { options: `-c search_path=${address.schema}` }),
  })
  // An idle connection that the server closes is replaced at the next use; unheard, it would end the process.
  pool.on('error', () => {})
  return new OwnPostgres({ pool: namingStatements(pool) })
}

class OwnPostgres extends PostgresDialect {
  override createQueryCompiler = () => new PostgresWriter()
  override createDriver() {
    return new ReadOnceDriver(super.createDriver())
  }
}
