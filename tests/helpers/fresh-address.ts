import { randomUUID } from 'node:crypto'
import pg from 'pg'
import type { DatabaseAddress } from '#src/store/open.ts'
import { postgresUrl } from './postgres-url.ts'

/**
 * Which engine tests use that are not about an engine: SQLite in memory, or with TEST_DATABASE=postgres a schema of
 * their own on PostgreSQL.
 */
export const onPostgres = process.env.TEST_DATABASE === 'postgres'

/** Databases of a run that is all on PostgreSQL begin so; its end drops them. */
export const FRESH = 'sward_fresh_'

/** An address that nobody has used yet. */
export async function freshAddress(): Promise<DatabaseAddress> {
  if (!onPostgres) return { engine: 'sqlite', path: ':memory:' }
  const url = await workersDatabase()
  const schema = `s_${randomUUID().replaceAll('-', '')}`
  await query(url, `create schema ${schema}`)
  return { engine: 'postgres', url, schema, connections: 4 }
}

let made: Promise<string> | null = null

/** One database for this worker: crews of other workers' stores have other locks. */
function workersDatabase(): Promise<string> {
  made ??= (async () => {
    const server = postgresUrl()
    if (server === null) throw new Error('Cannot test on PostgreSQL: TEST_POSTGRES_URL names no server')
    const name = `${FRESH}${randomUUID().replaceAll('-', '')}`
    await query(server, `create database ${name}`)
    const url = new URL(server)
    url.pathname = `/${name}`
    return url.href
  })()
  return made
}

/** One statement on a connection of its own. */
export async function query(url: string, statement: string): Promise<pg.QueryResult> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    return await client.query(statement)
  } finally {
    await client.end()
  }
}

/** After the run: what its workers made goes. */
export default function setup(): () => Promise<void> {
  return async () => {
    const server = postgresUrl()
    if (!onPostgres || server === null) return
    const { rows } = await query(server, `select datname from pg_database where datname like '${FRESH}%'`)
    for (const { datname } of rows) await query(server, `drop database ${datname} with (force)`)
  }
}
