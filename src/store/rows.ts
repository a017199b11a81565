import { createHash } from 'node:crypto'
import { CompiledQuery, type Kysely } from 'kysely'
import type { Engine } from './dialect.ts'
import type { TableShape } from './schema-at.ts'
import type { Tables } from './tables.ts'

/** A row as it is archived: its values in the order of the table's columns. The store knows no other types. */
export type Cells = readonly (string | number | null)[]

/** Rows read, and held in memory, at a time. */
const PAGE = 1000

const quoted = (name: string) => `"${name}"`

/** All rows of a table in the order of its key, a page at a time. */
export async function* rowsOf(
  db: Kysely<Tables>,
  { name, columns, key }: TableShape,
): AsyncGenerator<readonly Cells[]> {
  const plain = db.withoutPlugins()
  const list = columns.map(quoted).join(', ')
  let after: string | number | null = null
  for (;;) {
    const where: string = after === null ? '' : `where ${quoted(key)} > ${literal(after)}`
    const query: string = `select ${list} from ${quoted(name)} ${where} order by ${quoted(key)} limit ${PAGE}`
    const { rows } = await plain.executeQuery<Record<string, Cells[number]>>(CompiledQuery.raw(query))
    if (rows.length > 0) yield rows.map((row) => columns.map((column) => row[column] ?? null))
    if (rows.length < PAGE) return
    after = rows.at(-1)?.[key] ?? null
  }
}

/** A key's value inside a statement: an id, or one of our own names. */
const literal = (value: string | number) =>
  typeof value === 'number' ? String(value) : `'${value.replaceAll("'", "''")}'`

/** Puts rows into a table, with the ids that they had. */
export async function insertRows(
  db: Kysely<Tables>,
  engine: Engine,
  { name, columns }: TableShape,
  rows: readonly Cells[],
): Promise<void> {
  const list = columns.map(quoted).join(', ')
  const mark = (at: number) => (engine === 'postgres' ? `$${at + 1}` : '?')
  const marksOf = (row: number) => `(${columns.map((_, at) => mark(row * columns.length + at)).join(', ')})`
  for (let at = 0; at < rows.length; at += AT_ONCE) {
    const some = rows.slice(at, at + AT_ONCE)
    const query = `insert into ${quoted(name)} (${list}) values ${some.map((_, row) => marksOf(row)).join(', ')}`
    await db.withoutPlugins().executeQuery(CompiledQuery.raw(query, some.flat()))
  }
}

/** Rows of one statement: with the widest table, well below the values that either engine takes. */
const AT_ONCE = 100

/** What a fresh store says of itself makes way for what a backup says. */
export async function emptyMeta(db: Kysely<Tables>): Promise<void> {
  await db.deleteFrom('meta').execute()
}

/** A row as a line of an archive. */
export const lineOf = (cells: Cells): string => `${JSON.stringify(cells)}\n`

/** What a table holds, so that a copy can be compared with it. */
export interface TableDigest {
  readonly rows: number
  /** SHA-256 of its rows as lines, in the order of its key. */
  readonly sha256: string
}

export function digester() {
  const hash = createHash('sha256')
  let rows = 0
  return {
    add(lines: readonly string[]): void {
      for (const line of lines) hash.update(line)
      rows += lines.length
    },
    digest: (): TableDigest => ({ rows, sha256: hash.digest('hex') }),
  }
}

/** Counts and hashes every table. */
export async function digestTables(
  db: Kysely<Tables>,
  shapes: readonly TableShape[],
): Promise<Readonly<Record<string, TableDigest>>> {
  const digests: Record<string, TableDigest> = {}
  for (const shape of shapes) {
    const digest = digester()
    for await (const page of rowsOf(db, shape)) digest.add(page.map(lineOf))
    digests[shape.name] = digest.digest()
  }
  return digests
}

/** The first row in which two tables are not the same, by its key, and what is the matter with it; null for none. */
export async function firstDifference(
  expected: Kysely<Tables>,
  found: Kysely<Tables>,
  shape: TableShape,
): Promise<{ readonly key: string; readonly what: 'missing' | 'too many' | 'changed' } | null> {
  const at = shape.columns.indexOf(shape.key)
  const [left, right] = [oneByOne(expected, shape), oneByOne(found, shape)]
  for (;;) {
    const [one, other] = [(await left.next()).value, (await right.next()).value]
    if (one === undefined && other === undefined) return null
    const [key, otherKey] = [one?.[at], other?.[at]]
    if (one !== undefined && other !== undefined && key === otherKey) {
      if (lineOf(one) !== lineOf(other)) return { key: String(key), what: 'changed' }
      continue
    }
    const isMissing = one !== undefined && (other === undefined || isBefore(key, otherKey))
    return isMissing ? { key: String(key), what: 'missing' } : { key: String(otherKey), what: 'too many' }
  }
}

async function* oneByOne(db: Kysely<Tables>, shape: TableShape): AsyncGenerator<Cells, undefined> {
  for await (const page of rowsOf(db, shape)) yield* page
  return undefined
}

/** Ids by number; names as they stand, since all of them are our own and plain. */
const isBefore = (one: Cells[number] | undefined, other: Cells[number] | undefined) =>
  typeof one === 'number' && typeof other === 'number' ? one < other : String(one) < String(other)

/**
 * New ids begin after those that were given out: PostgreSQL counts beside its rows. Turns leave a gap, since buttons
 * that were sent after a backup carry ids that the restored store would give to other turns.
 */
export async function continueIds(
  db: Kysely<Tables>,
  engine: Engine,
  shapes: readonly TableShape[],
  turnGap: number = TURN_GAP,
): Promise<void> {
  const run = (query: string) => db.withoutPlugins().executeQuery(CompiledQuery.raw(query))
  for (const { name } of shapes.filter(({ key }) => key === 'id')) {
    const gap = name === 'turns' ? turnGap : 0
    if (engine === 'postgres')
      await run(
        `select setval(pg_get_serial_sequence('${quoted(name)}', 'id'), (select coalesce(max(id), 0) from ${quoted(name)}) + ${gap + 1}, false)`,
      )
    else if (gap > 0) {
      await run(
        `insert into sqlite_sequence (name, seq) select '${name}', 0 where not exists (select 1 from sqlite_sequence where name = '${name}')`,
      )
      await run(`update sqlite_sequence set seq = seq + ${gap} where name = '${name}'`)
    }
  }
}

/** Far more turns than a company has between two backups. */
export const TURN_GAP = 1_000_000
