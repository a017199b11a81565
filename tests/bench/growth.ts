import { sql } from 'kysely'
import { claimDue } from '#src/store/deliveries.ts'
import { knowTables } from '#src/store/know-tables.ts'
import { write } from '#src/store/transaction.ts'
import { median, percentile, rounded } from './figures.ts'
import { databaseOn } from './postgres.ts'
import { MIX, openPractice, type Practice } from './practice.ts'

export type Growth = {
  readonly engine: 'sqlite' | 'postgres'
  readonly records: number
  readonly work: string
  readonly median_ms: number
  readonly p99_ms: number
  /** Asked of the store by one of them; the same however much is kept. Counted on SQLite, which is asked the same. */
  readonly statements: number | null
}

/** A log takes more than ten requests before its last step. */
const MOST_SAMPLES = 20

/**
 * How the last step of a log, a mix held against the history of its ground, completing a product, and claiming what is
 * due grow. @param postgres a server on which databases may be made; null for SQLite
 */
export async function measureGrowth(
  sizes: readonly number[],
  samples: number,
  postgres: string | null = null,
): Promise<readonly Growth[]> {
  const grown: Growth[] = []
  const asked = Math.min(samples, MOST_SAMPLES)
  for (const records of sizes) {
    const made = postgres === null ? null : await databaseOn(postgres)
    const practice = await openPractice(() => {}, made?.address)
    try {
      await (await practice.readyLog()).keep()
      await fill(practice, records)
      grown.push(...(await measureAt(practice, records, asked)))
    } finally {
      await practice.close()
      await made?.drop()
    }
  }
  return grown
}

async function measureAt(practice: Practice, records: number, samples: number): Promise<Growth[]> {
  const { database } = practice.bot
  const claim = { nowMs: practice.nowMs, leaseMs: 60_000, limit: 5 }
  const works: Record<string, () => Promise<() => Promise<unknown>>> = {
    '/log, last step': async () => (await practice.readyLog()).keep,
    '/mix, with the history of its ground': async () => () => practice.type(MIX),
    'completing a product': async () => () =>
      practice.bot.suggest({
        by: practice.speaker,
        command: 'mix',
        option: 'product',
        typed: 'dunv',
        options: {},
      }),
    'claiming what is due': async () => () => write(database, (db) => claimDue(db, database.words, claim)),
  }
  const grown: Growth[] = []
  for (const [work, prepare] of Object.entries(works)) {
    const times: number[] = []
    const counts: number[] = []
    // The first is not counted: it compiles its statements.
    for (let at = 0; at <= samples; at += 1) {
      const run = await prepare()
      const [before, began] = [practice.statements, performance.now()]
      await run()
      if (at === 0) continue
      times.push(performance.now() - began)
      counts.push(practice.statements - before)
    }
    grown.push({
      engine: database.words.engine,
      records,
      work,
      median_ms: rounded(median(times), 2),
      p99_ms: rounded(percentile(times, 0.99), 2),
      statements: database.words.engine === 'sqlite' ? median(counts) : null,
    })
  }
  return grown
}

/** Records of one kept record's kind at 20 a place: answers, links, rows, treatments, messages that left or are due. */
const PER_PLACE = 20
/** A large crew's day. */
const PER_DAY = 20
/** Messages due at once: far more than are claimed. */
const DUE = 10_000

/**
 * Copies of the newest record, with everything that it left, made inside the database. Only their number matters here:
 * their hashes are not those of a chain.
 */
export async function fill({ bot, nowMs }: Practice, records: number): Promise<void> {
  await write(bot.database, async (db) => {
    const run = (text: string) => sql.raw(text).execute(db)
    const of = (table: string, changed: Readonly<Record<string, string>>) => copy(db, table, changed)
    await run(
      `create temp table n as with recursive n(i) as (select 1 union all select i + 1 from n where i < ${records}) select i from n`,
    )
    const crew = `(select crew_id from records order by id desc limit 1)`
    const place = `n.i / ${PER_PLACE}`
    await run(`insert into sites (crew_id, name, address, details, retired_at_ms, created_at_ms)
      select s.crew_id, 'Grown ' || n.i, s.address, s.details, null, s.created_at_ms
      from n, (select * from sites where crew_id = ${crew} limit 1) s where n.i % ${PER_PLACE} = 0`)
    await run(`insert into areas (crew_id, site_id, name, square_feet, details, retired_at_ms, created_at_ms)
      select s.crew_id, s.id, 'front', '6000', (select details from areas limit 1), null, s.created_at_ms
      from sites s where s.name like 'Grown %'`)
    await run(
      `create temp table places as select row_number() over (order by id) - 1 as at, id as area, site_id as site from areas where crew_id = ${crew} and site_id in (select id from sites where name like 'Grown %')`,
    )
    const area = `coalesce((select area from places where at = ${place}), t.area_id)`
    const site = `coalesce((select site from places where at = ${place}), t.site_id)`
    const isPostgres = bot.database.words.engine === 'postgres'
    const day = isPostgres
      ? `to_char(date '2026-06-30' - (n.i / ${PER_DAY})::int, 'YYYY-MM-DD')`
      : `date('2026-06-30', '-' || (n.i / ${PER_DAY}) || ' days')`
    await run('create index places_at on places (at)')
    await of('turns', { request_id: "'grown-' || n.i", number: 't.number + n.i' })
    await run(`update crews set answers = answers + ${records} where id = ${crew}`)
    await of('chain_links', { seq: 't.seq + n.i', record_number: 't.record_number + n.i' })
    await of('records', {
      number: 't.number + n.i',
      link_id: '(select l.id from chain_links l where l.crew_id = t.crew_id and l.seq = t.number + n.i)',
      site_id: site,
      area_id: area,
      applied_on: day,
    })
    await of('record_products', { record_id: 't.record_id + n.i' })
    await of('treatments', { area_id: area, treated_on: day })
    await of('stock_movements', {
      record_number: 't.record_number + n.i',
      at_ms: `t.at_ms - cast(n.i as bigint) * ${Math.floor(86_400_000 / PER_DAY)}`,
    })
    await run(`insert into deliveries (crew_id, person_id, command, reply, nonce, due_at_ms, claimed_until_ms, sent_at_ms, created_at_ms, tried_at_ms)
      select t.crew_id, t.person_id, t.command, t.reply, 'grown-' || n.i, ${nowMs} - n.i,
        null, case when n.i <= ${Math.min(DUE, records / 2)} then null else ${nowMs} end, t.created_at_ms, null
      from n, (select crew_id, person_id, command, reply, created_at_ms from turns order by id limit 1) t`)
    // A server looks at its tables by itself within a minute; here they are used at once.
    if (isPostgres) await run('analyze')
  })
  await knowTables(bot.database)
}

type Db = Parameters<Parameters<typeof write>[1]>[0]

/** The newest row of a table once for each n, with some columns worked out anew. */
async function copy(db: Db, table: string, changed: Readonly<Record<string, string>>): Promise<void> {
  const found = (await db.introspection.getTables()).find(({ name }) => name === table)
  const columns = (found?.columns ?? []).map(({ name }) => name).filter((name) => name !== 'id')
  const values = columns.map((name) => changed[name] ?? `t.${name}`)
  await sql
    .raw(
      `insert into ${table} (${columns.join(', ')}) select ${values.join(', ')}
       from n, (select * from ${table} order by id desc limit 1) t order by n.i`,
    )
    .execute(db)
}
