import type { PostgresPool, PostgresPoolClient } from 'kysely'
import type pg from 'pg'

/** As many as the program asks again and again; what comes after them is planned anew each time. */
const MOST_NAMED = 300
const MOST_SEEN = 1000

/**
 * The pool whose connections plan each statement once: what is asked for the second time gets a name, under which
 * PostgreSQL keeps it. Planning takes longer than most of these statements do.
 */
export function namingStatements(pool: pg.Pool): PostgresPool {
  const nameOf = namer()
  const known = new WeakMap<pg.PoolClient, PostgresPoolClient>()
  return {
    async connect() {
      const client = await pool.connect()
      const before = known.get(client)
      if (before !== undefined) return before
      const made = naming(client, nameOf)
      known.set(client, made)
      return made
    },
    end: () => pool.end(),
  }
}

function naming(client: pg.PoolClient, nameOf: (words: string) => string | undefined): PostgresPoolClient {
  const query = (words: string, values: unknown[]) => {
    const name = nameOf(words)
    return name === undefined ? client.query(words, values) : client.query({ name, text: words, values })
  }
  return {
    // Streams of rows would come as objects of their own; this store has none.
    query: query as unknown as PostgresPoolClient['query'],
    release: (error) => client.release(error),
  }
}

/** Names by the words of a statement; null for what was asked once. */
function namer(): (words: string) => string | undefined {
  const names = new Map<string, string | null>()
  let count = 0
  return (words) => {
    const known = names.get(words)
    if (known !== undefined && known !== null) return known
    if (known === undefined) {
      if (names.size < MOST_SEEN && isPlanned(words)) names.set(words, null)
      return undefined
    }
    if (count >= MOST_NAMED) return undefined
    count += 1
    const name = `asked ${count}`
    names.set(words, name)
    return name
  }
}

/**
 * All columns of a table are others after a migration, which PostgreSQL refuses under a name that was given before;
 * transactions and settings have no plan.
 */
function isPlanned(words: string): boolean {
  return /^(select|insert|update|delete) /.test(words) && !/(select|returning|\.) ?\*/.test(words)
}
