import type { CompiledQuery, DatabaseConnection, Driver, QueryResult, TransactionSettings } from 'kysely'
import { remember } from '#src/memory/remember.ts'

/** One that returns more is a page of a long list, which is read once. */
const MOST_ROWS = 50
const MOST_KEPT = 300

/** Others change these beside the lock of a crew. */
const CHANGED_BY_OTHERS = new Set(['deliveries', 'meta'])

/**
 * Inside a transaction the same question is asked of the engine once, until something is written that it might depend
 * on: several rooms read the same label, place and person for one request. A request holds the lock of its crew, so
 * nobody else changes what it has read.
 */
export class ReadOnceDriver implements Driver {
  readonly #inner: Driver
  readonly #connections = new WeakMap<DatabaseConnection, ReadOnceConnection>()

  constructor(inner: Driver) {
    this.#inner = inner
  }

  init(): Promise<void> {
    return this.#inner.init()
  }

  async acquireConnection(): Promise<DatabaseConnection> {
    const inner = await this.#inner.acquireConnection()
    const known = this.#connections.get(inner)
    if (known !== undefined) return known
    const made = new ReadOnceConnection(inner)
    this.#connections.set(inner, made)
    return made
  }

  async beginTransaction(connection: DatabaseConnection, settings: TransactionSettings): Promise<void> {
    const own = ownOf(connection)
    await this.#inner.beginTransaction(own.inner, settings)
    own.remember()
  }

  async commitTransaction(connection: DatabaseConnection): Promise<void> {
    ownOf(connection).forget()
    await this.#inner.commitTransaction(ownOf(connection).inner)
  }

  async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    ownOf(connection).forget()
    await this.#inner.rollbackTransaction(ownOf(connection).inner)
  }

  async releaseConnection(connection: DatabaseConnection): Promise<void> {
    ownOf(connection).forget()
    await this.#inner.releaseConnection(ownOf(connection).inner)
  }

  destroy(): Promise<void> {
    return this.#inner.destroy()
  }
}

function ownOf(connection: DatabaseConnection): ReadOnceConnection {
  if (connection instanceof ReadOnceConnection) return connection
  throw new TypeError('Cannot use a connection of another driver')
}

interface Kept {
  readonly tables: ReadonlySet<string>
  readonly result: QueryResult<unknown>
}

class ReadOnceConnection implements DatabaseConnection {
  readonly inner: DatabaseConnection
  /** Null outside a transaction: there anybody may write between two statements. */
  #kept: Map<string, Kept> | null = null
  /** Counts what was written: an answer that was asked for before a write is not kept after it. */
  #writes = 0

  constructor(inner: DatabaseConnection) {
    this.inner = inner
  }

  remember(): void {
    this.#writes += 1
    this.#kept = new Map()
  }

  forget(): void {
    this.#writes += 1
    this.#kept = null
  }

  async executeQuery<Row>(query: CompiledQuery): Promise<QueryResult<Row>> {
    if (this.#kept === null) return this.inner.executeQuery<Row>(query)
    const kind = kindOf(query.sql)
    if (kind.does === 'write') {
      // Also when it fails: how far it came is not known.
      const result = this.inner.executeQuery<Row>(query)
      this.#forgetWhatReads(kind.table)
      return result
    }
    if (kind.does !== 'read') return this.inner.executeQuery<Row>(query)
    const key = `${query.sql}\n${JSON.stringify(query.parameters)}`
    const before = this.#kept.get(key)
    if (before !== undefined) return before.result as QueryResult<Row>
    const writes = this.#writes
    const result = await this.inner.executeQuery<Row>(query)
    if (writes !== this.#writes || this.#kept === null) return result
    if (this.#kept.size < MOST_KEPT && result.rows.length <= MOST_ROWS)
      this.#kept.set(key, { tables: kind.tables, result })
    return result
  }

  streamQuery<Row>(query: CompiledQuery, chunkSize?: number): AsyncIterableIterator<QueryResult<Row>> {
    return this.inner.streamQuery<Row>(query, chunkSize ?? 1)
  }

  #forgetWhatReads(table: string | null): void {
    this.#writes += 1
    for (const [key, { tables }] of this.#kept ?? [])
      if (table === null || tables.has(table)) this.#kept?.delete(key)
  }
}

type Kind =
  | { readonly does: 'read'; readonly tables: ReadonlySet<string> }
  /** Null for whatever may change anything: taking a lock lets others go first, and so do cascades. */
  | { readonly does: 'write'; readonly table: string | null }
  | { readonly does: 'neither' }

/** Statements by their words: the builder's own are few, and come again and again. */
const MOST_KINDS = 2000
const kindOf = remember(readKind, MOST_KINDS)

function readKind(sql: string): Kind {
  if (/^(savepoint|release savepoint) /.test(sql)) return { does: 'neither' }
  const written = /^(?:insert into|update) "(\w+)"/.exec(sql)?.[1]
  if (written !== undefined) return { does: 'write', table: written }
  // Only what the query builder wrote: its names are quoted, and no function in it has an effect.
  if (!/^select (distinct )?("|\*|max\(|min\(|count\(|sum\()/.test(sql)) return { does: 'write', table: null }
  const tables = new Set([...sql.matchAll(/"(\w+)"/g)].map(([, name = '']) => name))
  const isShared = [...CHANGED_BY_OTHERS].some((table) => tables.has(table))
  return isShared || / for update/.test(sql) ? { does: 'neither' } : { does: 'read', tables }
}
