import { type ChainHead, chainHeads } from '#src/store/chain-heads.ts'
import { holdAlone } from '#src/store/hand-over.ts'
import { HAS_MOVED, NEWEST_SCHEMA } from '#src/store/migrate.ts'
import { type DatabaseAddress, isEmptyStore, type LookedAt, lookInto, openDatabase } from '#src/store/open.ts'
import {
  continueIds,
  digester,
  digestTables,
  emptyMeta,
  firstDifference,
  insertRows,
  lineOf,
  rowsOf,
  type TableDigest,
} from '#src/store/rows.ts'
import { schemaAt, type TableShape } from '#src/store/schema-at.ts'
import { snapshot, type Transaction, write } from '#src/store/transaction.ts'
import { BackupError } from './manifest.ts'
import { differences } from './verify.ts'

export interface MoveReport {
  /** Rows by table. */
  readonly tables: Readonly<Record<string, number>>
  readonly rows: number
  readonly chains: readonly ChainHead[]
}

/**
 * Moves everything in one store into another, empty one, on either engine: all tables in one transaction, which is kept
 * only if every table then holds the same rows (by count and content) and every crew's chain of records ends alike. The
 * store that was left says so, and is opened by no program any more. Photos stay where they are.
 * @throws BackupError, WrongDatabase, or what the engines say; the new store is then as empty as before
 */
export async function moveStore(from: DatabaseAddress, to: DatabaseAddress): Promise<MoveReport> {
  const held = await holdAlone(from)
  try {
    const source = await lookInto(from)
    try {
      if (source.hasMoved) throw new BackupError(HAS_MOVED)
      if (source.schema !== NEWEST_SCHEMA)
        throw new BackupError(
          `Cannot move: the database has schema ${source.schema} and this program writes ${NEWEST_SCHEMA}. Start the program on it once, then move.`,
        )
      await refuseTaken(to, source)
      const report = await carryOver(source, to)
      await held.markMoved(to.engine)
      return report
    } finally {
      await source.close()
    }
  } finally {
    await held.release()
  }
}

/** Nothing that somebody has written is mixed with what comes: at most the empty tables of the same schema are there. */
async function refuseTaken(to: DatabaseAddress, source: LookedAt): Promise<void> {
  if (await isEmptyStore(to)) return
  const target = await lookInto(to)
  try {
    if (target.schema !== source.schema)
      throw new BackupError(
        `Cannot move: what is there has schema ${target.schema}, and what comes ${source.schema}. Name an empty database.`,
      )
    if (target.purpose !== source.purpose)
      throw new BackupError(
        `Cannot move: what is there is a ${target.purpose} database, and what comes a ${source.purpose} one.`,
      )
    const digests = await digestTables(target.db, await schemaAt(target.schema))
    const taken = Object.entries(digests).filter(([name, { rows }]) => name !== 'meta' && rows > 0)
    if (taken.length > 0)
      throw new BackupError('Cannot move: the database is not empty. Name another one, or empty it yourself.')
  } finally {
    await target.close()
  }
}

async function carryOver(source: LookedAt, to: DatabaseAddress): Promise<MoveReport> {
  const shapes = await schemaAt(source.schema)
  const target = await openDatabase(to, source.purpose, source.schema)
  try {
    return await snapshot(source, (from) =>
      write(target, async (into) => {
        await emptyMeta(into)
        const left: Record<string, TableDigest> = {}
        for (const shape of shapes) left[shape.name] = await copyTable(from, into, target.words.engine, shape)
        await continueIds(into, target.words.engine, shapes, 0)
        const wrong = differences(left, await digestTables(into, shapes))
        if (wrong.length > 0) {
          const named = [...wrong, ...(await rowsWrong(from, into, shapes))]
          throw new BackupError(`What arrived is not what was there: ${named.join('; ')}`)
        }
        const [before, chains] = [await chainHeads(from), await chainHeads(into)]
        if (JSON.stringify(before) !== JSON.stringify(chains))
          throw new BackupError('What arrived has other chains of records than what was there')
        const tables = Object.fromEntries(Object.entries(left).map(([name, { rows }]) => [name, rows]))
        return { tables, rows: Object.values(tables).reduce((sum, rows) => sum + rows, 0), chains }
      }),
    )
  } finally {
    await target.close()
  }
}

/** The first row of each table that did not arrive as it was. */
async function rowsWrong(
  from: Transaction,
  into: Transaction,
  shapes: readonly TableShape[],
): Promise<string[]> {
  const found: string[] = []
  for (const shape of shapes) {
    const row = await firstDifference(from, into, shape)
    if (row !== null)
      found.push(`first in ${shape.name}: the row with ${shape.key} ${row.key} is ${row.what}`)
  }
  return found
}

/** Copies a table, and says what it held as it was read. */
async function copyTable(
  from: Transaction,
  into: Transaction,
  engine: DatabaseAddress['engine'],
  shape: TableShape,
): Promise<TableDigest> {
  const digest = digester()
  for await (const page of rowsOf(from, shape)) {
    digest.add(page.map(lineOf))
    await insertRows(into, engine, shape, page)
  }
  return digest.digest()
}
