import { Kysely, sql } from 'kysely'
import { sqliteWords } from './dialect.ts'
import { migrate } from './migrate.ts'
import { SqliteDialect } from './sqlite.ts'
import type { Tables } from './tables.ts'

/** A table as a schema version knows it, with its columns in their order. */
export interface TableShape {
  readonly name: string
  readonly columns: readonly string[]
  /** What rows are read by, a page at a time. */
  readonly key: string
}

/** Tables of a schema version, parents before their children. Both engines have the same. */
export async function schemaAt(version: number): Promise<readonly TableShape[]> {
  const db = new Kysely<Tables>({ dialect: new SqliteDialect({ path: ':memory:' }) })
  try {
    await migrate(db, sqliteWords, 'practice', version)
    const { rows: made } = await sql<{ name: string }>`
      select name from sqlite_master where type = 'table' and name not like 'sqlite%' order by rowid
    `.execute(db)
    const shapes: (TableShape & { readonly parents: readonly string[] })[] = []
    for (const { name } of made) {
      const { rows: columns } = await sql<{ name: string; pk: number }>`
        select name, pk from pragma_table_info(${name}) order by cid
      `.execute(db)
      const { rows: parents } = await sql<{ table: string }>`
        select distinct "table" from pragma_foreign_key_list(${name})
      `.execute(db)
      shapes.push({
        name,
        columns: columns.map((column) => column.name),
        key: columns.find(({ pk }) => pk === 1)?.name ?? 'rowid',
        parents: parents.map(({ table }) => table).filter((table) => table !== name),
      })
    }
    return parentsFirst(shapes)
  } finally {
    await db.destroy()
  }
}

function parentsFirst(shapes: readonly (TableShape & { readonly parents: readonly string[] })[]) {
  const placed: TableShape[] = []
  let left = [...shapes]
  while (left.length > 0) {
    const ready = left.filter(({ parents }) =>
      parents.every((parent) => placed.some(({ name }) => name === parent)),
    )
    if (ready.length === 0) throw new Error('Cannot order the tables: they refer to each other in a circle')
    placed.push(...ready.map(({ name, columns, key }) => ({ name, columns, key })))
    left = left.filter((shape) => !ready.includes(shape))
  }
  return placed
}
