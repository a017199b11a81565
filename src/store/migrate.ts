import { createHash } from 'node:crypto'
import { CompiledQuery, type Kysely, sql } from 'kysely'
import { CREW_LOCK, type EngineWords, sqliteWords } from './dialect.ts'
import { first } from './migrations/0001-first.ts'
import { walks } from './migrations/0002-walks.ts'
import { records } from './migrations/0003-records.ts'
import { recheck } from './migrations/0004-recheck.ts'
import { stock } from './migrations/0005-stock.ts'
import { indexes } from './migrations/0006-indexes.ts'
import { ways } from './migrations/0007-ways.ts'
import type { Tables } from './tables.ts'

/** In order; a migration that has run anywhere is never edited. */
const migrations = [first, walks, records, recheck, stock, indexes, ways]

/** The schema that this program writes. */
export const NEWEST_SCHEMA = migrations.length

/** What the database is for: a practice database is never opened live, nor a live one for practice. */
export type Purpose = 'practice' | 'live'

export class WrongDatabase extends Error {}

/**
 * Brings the database to this program's schema, whole or not at all, and claims it for its purpose.
 * @param upTo an earlier schema, for a store that is brought back from a backup
 * @throws WrongDatabase if it belongs to the other purpose, or to a newer program.
 */
export async function migrate(
  db: Kysely<Tables>,
  words: EngineWords,
  purpose: Purpose,
  upTo: number = NEWEST_SCHEMA,
): Promise<void> {
  await db.transaction().execute(async (transaction) => {
    if (words.engine === 'postgres')
      await sql`select pg_advisory_xact_lock(${CREW_LOCK}, 0)`.execute(transaction)
    await run(transaction, `create table if not exists meta (name text primary key, value text not null)`)
    const version = Number((await metaValue(transaction, 'schema')) ?? '0')
    refuseNewer(version)
    if ((await metaValue(transaction, MOVED)) !== undefined) throw new WrongDatabase(HAS_MOVED)
    await refuseUnreleased(transaction, version)
    for (const migration of migrations.slice(version, upTo))
      for (const statement of migration(words.columns)) await run(transaction, statement)
    const schema = Math.max(version, upTo)
    await setMeta(transaction, 'schema', String(schema))
    await claimPurpose(transaction, purpose)
    if (purpose === 'practice') await setMeta(transaction, SHAPE, shapeOf(schema))
  })
}

/** Kept in a store whose rows went to another: no program opens it any more, so that nobody goes on in two places. */
export const MOVED = 'moved'
export const HAS_MOVED =
  'Cannot open the database: what it held was moved to another one. Name that one in DATABASE_URL.'

/** Kept with a practice store alone: what is live is never opened by a program that is not finished. */
const SHAPE = 'shape'

/** The statements that made the tables, as one short text; the same on every engine. */
function shapeOf(schema: number): string {
  const statements = migrations.slice(0, schema).flatMap((migration) => migration(sqliteWords.columns))
  return createHash('sha256').update(statements.join(';\n')).digest('hex').slice(0, 16)
}

/** Before a release its migrations may still change; what was practiced in between then fits no program any more. */
async function refuseUnreleased(db: Kysely<Tables>, schema: number): Promise<void> {
  const kept = await metaValue(db, SHAPE)
  if (kept !== undefined && kept !== shapeOf(schema))
    throw new WrongDatabase(
      'Cannot open the database: an unfinished version of this program made its tables. It is for practice only: delete its file, and a new one is made',
    )
}

/** @throws WrongDatabase */
export function refuseNewer(schema: number): void {
  if (schema > NEWEST_SCHEMA)
    throw new WrongDatabase(
      `Cannot open the database: it was written by a newer program (schema ${schema}, this one knows ${NEWEST_SCHEMA})`,
    )
}

async function claimPurpose(db: Kysely<Tables>, purpose: Purpose): Promise<void> {
  const found = await metaValue(db, 'purpose')
  if (found === undefined) await setMeta(db, 'purpose', purpose)
  else if (found !== purpose)
    throw new WrongDatabase(
      `Cannot open the database: it is a ${found} database and this is a ${purpose} run`,
    )
}

async function run(db: Kysely<Tables>, statement: string): Promise<void> {
  await db.executeQuery(CompiledQuery.raw(statement))
}

async function metaValue(db: Kysely<Tables>, name: string): Promise<string | undefined> {
  return (await db.selectFrom('meta').select('value').where('name', '=', name).executeTakeFirst())?.value
}

async function setMeta(db: Kysely<Tables>, name: string, value: string): Promise<void> {
  await db
    .insertInto('meta')
    .values({ name, value })
    .onConflict((on) => on.column('name').doUpdateSet({ value }))
    .execute()
}
