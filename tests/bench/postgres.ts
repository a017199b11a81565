import { randomUUID } from 'node:crypto'
import pg from 'pg'
import type { DatabaseAddress } from '#src/store/open.ts'

/** A database of its own on a server, and what drops it. */
export async function databaseOn(
  server: string,
): Promise<{ readonly address: DatabaseAddress; drop(): Promise<void> }> {
  const name = `sward_bench_${randomUUID().replaceAll('-', '')}`
  const run = async (statement: string) => {
    const client = new pg.Client({ connectionString: server })
    await client.connect()
    await client.query(statement).finally(() => client.end())
  }
  await run(`create database ${name}`)
  const url = new URL(server)
  url.pathname = `/${name}`
  return {
    address: { engine: 'postgres', url: url.href },
    drop: () => run(`drop database ${name} with (force)`),
  }
}
