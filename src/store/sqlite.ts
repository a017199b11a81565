import { closeSync, openSync } from 'node:fs'
import type { Dialect } from 'kysely'
import {
  CompiledQuery,
  type DatabaseConnection,
  type Driver,
  type QueryResult,
  SqliteAdapter,
  SqliteIntrospector,
  type TransactionSettings,
} from 'kysely'
import { BoundedMap } from '#src/memory/bounded-map.ts'
import { Group } from './group.ts'
import { SqliteWriter } from './naming.ts'
import { ReadOnceDriver } from './read-once.ts'
import { Database, type SqliteDatabase, type SqliteStatement } from './sqlite-engine.ts'

export interface SqliteOptions {
  /** File path, or ':memory:'. */
  readonly path: string
  readonly readonly?: boolean
  /** A pause before every statement, to see what a slow disk does to everything else. */
  readonly pauseMs?: number | (() => number)
  /**
   * How long writes wait for another process before they fail, from the first that finds it in the way. Default 1,500
   * ms: whoever asks is given up on by their messenger after three seconds, and then does it again.
   */
  readonly patienceMs?: number
  /** Sees every connection once it is open: trials fill its disk or take away its right to write. */
  readonly opened?: (db: SqliteDatabase) => void
}

/** A busy wait inside SQLite stops the event loop; so it is short, and the rest of the waiting is asynchronous. */
const BUSY_TIMEOUT_MS = 50
const RETRY_MS = 20
const PATIENCE_MS = 1500
/** Opening has no one waiting for it, and somebody else may be bringing the schema up to date. */
const OPENING_PATIENCE_MS = 10_000
const STATEMENTS_KEPT = 500

/** SQLite for kysely: writes begin IMMEDIATE, statements are kept, and waiting never blocks the event loop. */
export class SqliteDialect implements Dialect {
  readonly #options: SqliteOptions
  constructor(options: SqliteOptions) {
    this.#options = options
  }
  createDriver = () => new ReadOnceDriver(new SqliteDriver(this.#options))
  createQueryCompiler = () => new SqliteWriter()
  createAdapter = () => new SqliteAdapter()
  createIntrospector: Dialect['createIntrospector'] = (db) => new SqliteIntrospector(db)
}

/** Opens the file with the settings that the promises on durability rest on. */
export function openSqlite(options: SqliteOptions): SqliteDatabase {
  if (!options.readonly && options.path !== ':memory:') makeOwn(options.path)
  const db = new Database(options.path, {
    timeout: BUSY_TIMEOUT_MS,
    readonly: options.readonly ?? false,
  })
  try {
    if (!options.readonly && options.path !== ':memory:') db.pragma('journal_mode = WAL')
    db.pragma('synchronous = FULL')
    db.pragma('foreign_keys = ON')
    assertSettings(db, options)
  } catch (error) {
    db.close()
    throw error
  }
  return db
}

/**
 * A new database belongs to the program's user alone, whatever the umask: it holds what customers and crews have told.
 * SQLite gives its journal the rights of the database. What is there already keeps the rights that it was given, and is
 * not opened: closing it again would take away every lock that this process holds on it.
 */
function makeOwn(file: string): void {
  try {
    closeSync(openSync(file, 'ax', 0o600))
  } catch {
    // It is there; or the engine says better what is wrong with the place.
  }
}

function assertSettings(db: SqliteDatabase, options: SqliteOptions): void {
  const settings = {
    synchronous: db.pragma('synchronous', { simple: true }),
    foreignKeys: db.pragma('foreign_keys', { simple: true }),
    journal: db.pragma('journal_mode', { simple: true }),
  }
  const journal = options.path === ':memory:' ? 'memory' : 'wal'
  // Whoever only reads, a backup for instance, keeps nothing by its journal.
  const isKept = options.readonly === true || settings.journal === journal
  if (settings.synchronous !== 2 || settings.foreignKeys !== 1 || !isKept)
    throw new Error(`Cannot keep records safely: the database runs with ${JSON.stringify(settings)}`)
}

const COMMIT = CompiledQuery.raw('commit')
const ROLL_BACK = CompiledQuery.raw('rollback')
/** The work of one request inside a transaction that it shares. */
const JOIN = CompiledQuery.raw('savepoint request')
const LEAVE = CompiledQuery.raw('release savepoint request')
const UNDO = CompiledQuery.raw('rollback to savepoint request')

/**
 * One connection for everybody. Requests that wait for it while another is at work go on in the same transaction, each
 * in a savepoint of its own, and share its commit: whoever asks hears of an answer once that commit is on disk.
 */
class SqliteDriver implements Driver {
  readonly #options: SqliteOptions
  #connection: SqliteConnection | null = null
  #db: SqliteDatabase | null = null
  #queue: Promise<void> = Promise.resolve()
  #release: (() => void) | null = null
  #waiting = 0
  /** The transaction that is open for whoever comes next; null while none is. */
  #group: Group | null = null
  /** Whether who holds the connection works in a savepoint of the group. */
  #joined = false
  /** Whether who holds it has undone everything: they hear why, and need no commit. */
  #undone = false
  #forbidden = false
  /** Since when somebody else has been in the way of every write; null while nobody is. */
  #lockedSince: number | null = null

  constructor(options: SqliteOptions) {
    this.#options = options
  }

  async init(): Promise<void> {
    this.#db = await patiently(OPENING_PATIENCE_MS, () => openSqlite(this.#options))
    this.#options.opened?.(this.#db)
    this.#connection = new SqliteConnection(this.#db, this.#options)
  }

  /** One connection, handed to one user at a time: a transaction never meets another's statements. */
  async acquireConnection(): Promise<DatabaseConnection> {
    const before = this.#queue
    let release = () => {}
    this.#queue = new Promise((done) => {
      release = done
    })
    this.#waiting += 1
    await before
    this.#waiting -= 1
    this.#release = release
    if (this.#connection !== null) return this.#connection
    release()
    throw new Error('Cannot use the store: it is closed')
  }

  async releaseConnection(): Promise<void> {
    const group = this.#group
    const isUndone = this.#undone
    this.#undone = false
    if (group !== null) {
      if (group.isFull || !this.#db?.inTransaction) await this.#commitGroup(group)
      else if (this.#waiting === 0) this.#commitSoon(group)
    }
    this.#release?.()
    if (!isUndone) await group?.done
  }

  /** Once the event loop has read what has come in meanwhile: those requests come along. */
  #commitSoon(group: Group): void {
    setImmediate(() => void this.#commitInTurn(group))
  }

  async #commitInTurn(group: Group): Promise<void> {
    if (this.#group !== group) return
    try {
      await this.acquireConnection()
    } catch {
      // The store was closed meanwhile, and this with it.
      return
    }
    if (this.#group === group) await this.#commitGroup(group)
    this.#release?.()
  }

  /** Brings to disk what its members have done. Never throws: each of them is told by the group. */
  async #commitGroup(group: Group): Promise<void> {
    this.#group = null
    try {
      // A full disk or an I/O error makes SQLite roll back everything at once.
      if (!this.#db?.inTransaction) throw this.#connection?.lost ?? new Error('The transaction is lost')
      await this.#connection?.executeQuery(COMMIT)
      group.keep()
    } catch (error) {
      group.lose(error)
      if (this.#db?.inTransaction) await this.#connection?.executeQuery(ROLL_BACK).catch(() => {})
    }
  }

  async beginTransaction(connection: DatabaseConnection, settings: TransactionSettings): Promise<void> {
    const readOnly = settings.accessMode === 'read only'
    if (this.#group !== null) {
      if (!readOnly) return this.#join(this.#group, connection)
      await this.#commitGroup(this.#group)
    }
    const begin = readOnly ? 'begin' : 'begin immediate'
    // Those that queue behind one that has waited do not each wait as long again.
    const patience = this.#options.patienceMs ?? PATIENCE_MS
    const waited = this.#lockedSince === null ? 0 : performance.now() - this.#lockedSince
    try {
      await patiently(
        Math.max(patience - waited, 0),
        () => connection.executeQuery(CompiledQuery.raw(begin)),
        () => {
          this.#lockedSince ??= performance.now()
        },
      )
      if (!readOnly) this.#lockedSince = null
    } catch (error) {
      // The next one begins to wait anew: whoever holds the lock may be another by then.
      if (waited > 2 * patience) this.#lockedSince = null
      throw error
    }
    if (readOnly) this.#forbidWriting()
    else this.#openGroup()
  }

  #openGroup(): void {
    this.#group = new Group()
    if (this.#connection !== null) this.#connection.lost = undefined
  }

  async #join(group: Group, connection: DatabaseConnection): Promise<void> {
    await connection.executeQuery(JOIN)
    group.join()
    this.#joined = true
  }

  /** What was written is on disk when the connection is given back, with what others wrote in the meantime. */
  async commitTransaction(connection: DatabaseConnection): Promise<void> {
    this.#allowWriting()
    if (this.#group === null) await connection.executeQuery(COMMIT)
    else if (this.#joined) await connection.executeQuery(LEAVE)
    this.#joined = false
  }

  async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    this.#allowWriting()
    const isJoined = this.#joined
    this.#joined = false
    this.#undone = true
    // A full disk or an I/O error has already rolled back; a second rollback would hide that error.
    if (!this.#db?.inTransaction) return
    if (isJoined) {
      await connection.executeQuery(UNDO)
      await connection.executeQuery(LEAVE)
      return
    }
    // Nobody else is in it yet: who comes first has no savepoint.
    this.#group = null
    await connection.executeQuery(ROLL_BACK)
  }

  /** SQLite has no read-only transaction: a write inside one would begin to write, and be kept. */
  #forbidWriting(): void {
    if (this.#db?.pragma('query_only', { simple: true }) !== 0) return
    this.#db.pragma('query_only = on')
    this.#forbidden = true
  }

  #allowWriting(): void {
    if (this.#forbidden) this.#db?.pragma('query_only = off')
    this.#forbidden = false
  }

  async destroy(): Promise<void> {
    await this.#queue
    if (this.#group !== null) await this.#commitGroup(this.#group)
    this.#connection = null
    this.#db?.close()
    this.#db = null
  }
}

class SqliteConnection implements DatabaseConnection {
  readonly #db: SqliteDatabase
  readonly #pauseMs: () => number
  readonly #statements = new BoundedMap<string, SqliteStatement>(STATEMENTS_KEPT)
  /** What has taken the whole transaction with it; undefined while nothing has. */
  lost: unknown

  constructor(db: SqliteDatabase, options: SqliteOptions) {
    this.#db = db
    const { pauseMs = 0 } = options
    this.#pauseMs = typeof pauseMs === 'number' ? () => pauseMs : pauseMs
  }

  async executeQuery<Row>(query: CompiledQuery): Promise<QueryResult<Row>> {
    const pauseMs = this.#pauseMs()
    if (pauseMs > 0) await pause(pauseMs)
    try {
      const statement = this.#prepare(query.sql)
      if (statement.reader) return { rows: statement.all(query.parameters) as Row[] }
      const { changes, lastInsertRowid } = statement.run(query.parameters)
      return { rows: [], numAffectedRows: BigInt(changes), insertId: BigInt(lastInsertRowid) }
    } catch (error) {
      if (!this.#db.inTransaction) this.lost ??= error
      throw error
    }
  }

  async *streamQuery<Row>(query: CompiledQuery): AsyncIterableIterator<QueryResult<Row>> {
    for (const row of this.#prepare(query.sql).iterate(query.parameters)) yield { rows: [row as Row] }
  }

  #prepare(sql: string): SqliteStatement {
    const kept = this.#statements.get(sql)
    if (kept !== undefined) return kept
    const statement = this.#db.prepare(sql)
    this.#statements.set(sql, statement)
    return statement
  }
}

const pause = (ms: number) => new Promise<void>((done) => setTimeout(done, ms))

/** Tries again while another process holds the lock, giving the event loop its turn in between. */
async function patiently<T>(
  patienceMs: number,
  attempt: () => T | Promise<T>,
  onBusy: () => void = () => {},
): Promise<T> {
  const until = performance.now() + patienceMs
  for (;;) {
    try {
      return await attempt()
    } catch (error) {
      if (!isBusy(error)) throw error
      onBusy()
      if (performance.now() > until) throw error
      await pause(RETRY_MS + Math.random() * RETRY_MS)
    }
  }
}

function isBusy(error: unknown): boolean {
  return error instanceof Database.SqliteError && error.code.startsWith('SQLITE_BUSY')
}
