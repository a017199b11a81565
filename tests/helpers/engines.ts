import { randomUUID } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, onTestFinished } from 'vitest'
import type { Engine } from '#src/store/dialect.ts'
import type { Purpose } from '#src/store/migrate.ts'
import { type Database, type DatabaseAddress, openDatabase } from '#src/store/open.ts'
import { onPostgres, query } from './fresh-address.ts'
import { postgresUrl } from './postgres-url.ts'

/** Where one suite keeps its databases: a temporary folder, or a database of its own on the test server. */
export interface Place {
  readonly engine: Engine
  /** An address that nobody has used yet. */
  address(): Promise<DatabaseAddress>
  /** A fresh store, or the one at an address, closed when the test is over. */
  open(address?: DatabaseAddress, purpose?: Purpose): Promise<Database>
  /** One store for all tests of the suite that keep to a crew of their own. */
  shared(): Promise<Database>
}

/** Runs a suite on SQLite and, where a server is given, on PostgreSQL. */
export function eachEngine(name: string, suite: (place: Place) => void): void {
  if (!onPostgres) describe(`${name}, on SQLite`, () => suite(sqlitePlace()))
  const url = postgresUrl()
  if (url !== null) describe(`${name}, on PostgreSQL`, () => suite(postgresPlace(url)))
}

/** Where tests keep theirs that are not about an engine. */
export function everydayPlace(): Place {
  return onPostgres ? postgresPlace() : sqlitePlace()
}

/** Databases as files in a folder that goes with the suite. */
export function sqlitePlace(): Place {
  let folder = ''
  beforeAll(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'swardhand-store-'))
  })
  afterAll(() => rmSync(folder, { recursive: true, force: true }))
  return placeAt('sqlite', async () => ({
    engine: 'sqlite',
    path: path.join(folder, `${randomUUID()}.sqlite`),
  }))
}

/** Of suites that are left out without one. */
const NO_SERVER = 'postgres://127.0.0.1/none'

/** One database for the suite, so that its locks are its own, and a schema for each store in it. */
export function postgresPlace(server: string = postgresUrl() ?? NO_SERVER): Place {
  const name = `sward_${randomUUID().replaceAll('-', '')}`
  const url = new URL(server)
  url.pathname = `/${name}`
  beforeAll(() => query(server, `create database ${name}`).then(() => {}))
  afterAll(() => query(server, `drop database ${name} with (force)`).then(() => {}))
  return placeAt('postgres', async () => {
    const schema = `s_${randomUUID().replaceAll('-', '')}`
    await query(url.href, `create schema ${schema}`)
    return { engine: 'postgres', url: url.href, schema, connections: 6 }
  })
}

function placeAt(engine: Engine, address: () => Promise<DatabaseAddress>): Place {
  let shared: Promise<Database> | null = null
  // Runs before the folder or database goes: what was registered last is ended first.
  afterAll(async () => (await shared)?.close())
  return {
    engine,
    address,
    open: async (given, purpose) => opened(given ?? (await address()), purpose),
    shared() {
      shared ??= address().then((made) => openDatabase(made, 'practice'))
      return shared
    },
  }
}

async function opened(address: DatabaseAddress, purpose: Purpose = 'practice'): Promise<Database> {
  const database = await openDatabase(address, purpose)
  onTestFinished(() => database.close())
  return database
}
