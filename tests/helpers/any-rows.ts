import { type Kysely, sql } from 'kysely'
import type { Database } from '#src/store/open.ts'
import { openDatabase } from '#src/store/open.ts'
import { type Cells, continueIds, insertRows } from '#src/store/rows.ts'
import { schemaAt, type TableShape } from '#src/store/schema-at.ts'
import type { Tables } from '#src/store/tables.ts'

interface Column {
  readonly name: string
  readonly type: string
  readonly notnull: number
}
interface Reference {
  readonly table: string
  readonly from: string
  readonly to: string
}

const CREWS = 2
const ROWS = 3
/** What texts are made of: quotes, line breaks, letters beyond the basic plane, the empty end of a line. */
const ODD = ['plain', `it's "quoted"`, 'two\nlines\t', 'ñandú 🌱 \u200f', '']

/** Rows of every table of a schema version, made from the schema alone, so that no table is ever left out. */
export async function anyRows(version: number): Promise<Map<TableShape, Cells[]>> {
  const { db, close } = await openDatabase({ engine: 'sqlite', path: ':memory:' }, 'practice', version)
  try {
    const rows = new Map<TableShape, Cells[]>()
    const shapes = await schemaAt(version)
    for (const shape of shapes) if (shape.name !== 'meta') rows.set(shape, await rowsOf(db, shape, rows))
    return rows
  } finally {
    await close()
  }
}

async function rowsOf(db: Kysely<Tables>, shape: TableShape, made: Map<TableShape, Cells[]>) {
  const { rows: columns } = await sql<Column>`
    select name, type, "notnull" from pragma_table_info(${shape.name}) order by cid
  `.execute(db)
  const { rows: references } = await sql<Reference>`
    select "table", "from", "to" from pragma_foreign_key_list(${shape.name})
  `.execute(db)
  const count = shape.name === 'crews' ? CREWS : CREWS * ROWS
  return Array.from({ length: count }, (_, at): Cells => {
    const crew = (at % CREWS) + 1
    return columns.map((column) => {
      if (column.name === 'id') return at + 1
      if (column.name === 'crew_id') return crew
      const reference = references.find(({ from }) => from === column.name)
      const isLeftOut = column.notnull === 0 && Math.floor(at / CREWS) === 1
      if (isLeftOut) return null
      if (reference !== undefined) return parentOf(made, reference, at)
      return column.type === 'INTEGER' ? at + 1 : `${column.name} ${at} ${ODD[at % ODD.length]}`
    })
  })
}

/** The row of the same place in the table that is referred to: it is of the same crew, and no two are shared. */
function parentOf(made: Map<TableShape, Cells[]>, { table, to }: Reference, at: number) {
  const [shape, rows] = [...made].find(([{ name }]) => name === table) ?? []
  return rows?.[at]?.[shape?.columns.indexOf(to) ?? 0] ?? null
}

/** Puts them into a store of that version. */
export async function fillAny({ db, words }: Database, rows: Map<TableShape, Cells[]>): Promise<void> {
  for (const [shape, cells] of rows) await insertRows(db, words.engine, shape, cells)
  await continueIds(db, words.engine, [...rows.keys()], 0)
}
