import { createRequire } from 'node:module'
import type Sqlite from 'better-sqlite3'

/** The oldest Node whose own interface the newer of the two builds needs. */
const NEWER_FROM = 22

/**
 * better-sqlite3 in the line that this Node can run. Version 13 crashes on Node 20; version 12 aborts on Node 24 when
 * one of its objects is collected inside a microtask (its destructor looks for an environment that is not entered).
 */
export const Database = createRequire(import.meta.url)(
  Number.parseInt(process.versions.node, 10) >= NEWER_FROM ? 'better-sqlite3-current' : 'better-sqlite3',
) as typeof Sqlite

export type SqliteDatabase = Sqlite.Database
export type SqliteStatement = Sqlite.Statement
