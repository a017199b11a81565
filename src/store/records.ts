import { type SelectQueryBuilder, sql } from 'kysely'
import { z } from 'zod'
import type { Json } from '#src/record/canonical.ts'
import { canonicalJson } from '#src/record/canonical.ts'
import type { Head, Link } from '#src/record/chain.ts'
import type { Kept } from '#src/record/seal.ts'
import type { Tables } from './tables.ts'
import type { Transaction } from './transaction.ts'

const Volume = z.strictObject({ value: z.string(), unit: z.string() })
export const WithinLabel = z.enum(['yes', 'no', 'unknown'])

/** A record as it is found, as it stands after its amendments. What it says is in the chain. */
export interface RecordRow {
  readonly id: number
  readonly number: number
  readonly linkId: number
  readonly personId: number
  readonly siteId: number | null
  readonly areaId: number | null
  readonly mixId: number | null
  /** What it drew from the mix. */
  readonly drawn: z.infer<typeof Volume> | null
  readonly appliedOn: string | null
  readonly complete: boolean
  readonly withinLabel: z.infer<typeof WithinLabel>
  readonly late: boolean
  /** Ids of the treatments that it left in the history of its area. */
  readonly treatments: readonly number[]
  readonly voidedAtMs: number | null
  readonly createdAtMs: number
}

export interface RecordFilter {
  readonly number?: number | undefined
  readonly siteId?: number | undefined
  readonly areaId?: number | undefined
  readonly personId?: number | undefined
  readonly product?: string | undefined
  readonly from?: string | undefined
  readonly to?: string | undefined
  /** Only those whose day is not recorded. */
  readonly noDay?: true | undefined
  readonly complete?: boolean | undefined
}

type Row = Omit<RecordRow, 'drawn' | 'complete' | 'withinLabel' | 'late' | 'treatments'> & {
  readonly drawn: string | null
  readonly complete: number
  readonly withinLabel: string
  readonly late: number
  readonly treatments: string
}

const COLUMNS = [
  'id',
  'number',
  'linkId',
  'personId',
  'siteId',
  'areaId',
  'mixId',
  'drawn',
  'appliedOn',
  'complete',
  'withinLabel',
  'late',
  'treatments',
  'voidedAtMs',
  'createdAtMs',
] as const

const Ids = z.array(z.int())
const LinkKind = z.enum(['record', 'amendment'])

const read = (row: Row): RecordRow => ({
  ...row,
  drawn: row.drawn === null ? null : Volume.parse(JSON.parse(row.drawn)),
  complete: row.complete === 1,
  withinLabel: WithinLabel.parse(row.withinLabel),
  late: row.late === 1,
  treatments: Ids.parse(JSON.parse(row.treatments)),
})

type Standing = Omit<RecordRow, 'id' | 'number' | 'linkId' | 'personId' | 'createdAtMs'>

const columnsOf = (standing: Standing) => ({
  siteId: standing.siteId,
  areaId: standing.areaId,
  mixId: standing.mixId,
  drawn: standing.drawn === null ? null : canonicalJson(standing.drawn),
  appliedOn: standing.appliedOn,
  complete: standing.complete ? 1 : 0,
  withinLabel: standing.withinLabel,
  late: standing.late ? 1 : 0,
  treatments: JSON.stringify(standing.treatments),
  voidedAtMs: standing.voidedAtMs,
})

/** The table of records, as seen from within a statement on another one. */
const OUTER = 'records'
const MONTH = sql<string | null>`substr(${sql.ref('records.appliedOn')}, 1, 7)`

const LINK = ['id', 'seq', 'kind', 'body', 'previous', 'hash'] as const
interface LinkRow {
  readonly id: number
  readonly seq: number
  readonly kind: string
  readonly body: string
  readonly previous: string
  readonly hash: string
}

interface PersonalRow {
  readonly linkId: number
  readonly path: string
  readonly salt: string
  readonly value: string
}

function linkOf(row: LinkRow, personal: readonly PersonalRow[] = []): Link {
  const kept: Record<string, Kept> = {}
  for (const { path, salt, value } of personal) kept[path] = { salt, value: JSON.parse(value) as Json }
  return {
    seq: row.seq,
    previous: row.previous,
    hash: row.hash,
    entry: { kind: LinkKind.parse(row.kind), sealed: { open: JSON.parse(row.body) as Json, kept } },
  }
}

/** The crew's chain of records and amendments, and the rows by which records are found. */
export function recordsOf(db: Transaction, crewId: number) {
  const links = () => db.selectFrom('chainLinks').select(LINK).where('crewId', '=', crewId)
  const all = () => db.selectFrom('records').select(COLUMNS).where('crewId', '=', crewId)

  /** What stands beside links: by their ids, the paths, salts and values that are still kept. */
  async function personalOf(rows: readonly LinkRow[]): Promise<ReadonlyMap<number, readonly PersonalRow[]>> {
    const byLink = new Map<number, PersonalRow[]>()
    if (rows.length === 0) return byLink
    const values = await db
      .selectFrom('personalValues')
      .select(['linkId', 'path', 'salt', 'value'])
      .where('crewId', '=', crewId)
      .where(
        'linkId',
        'in',
        rows.map(({ id }) => id),
      )
      .execute()
    for (const value of values) {
      const known = byLink.get(value.linkId)
      if (known === undefined) byLink.set(value.linkId, [value])
      else known.push(value)
    }
    return byLink
  }

  async function withPersonal(rows: readonly LinkRow[]): Promise<Link[]> {
    const personal = await personalOf(rows)
    return rows.map((row) => linkOf(row, personal.get(row.id)))
  }

  async function keepProducts(recordId: number, products: readonly string[]): Promise<void> {
    for (const name of products)
      await db.insertInto('recordProducts').values({ crewId, recordId, name }).execute()
  }

  return {
    /** The newest link; null while nothing is kept. */
    async head(): Promise<Head | null> {
      const row = await db
        .selectFrom('chainLinks')
        .select(['seq', 'hash'])
        .where('crewId', '=', crewId)
        .orderBy('seq', 'desc')
        .limit(1)
        .executeTakeFirst()
      return row ?? null
    },

    /** Puts the next link on the chain, with its personal values beside it. Nothing ever changes a link. */
    async append(link: Link, recordNumber: number, atMs: number): Promise<number> {
      const { id } = await db
        .insertInto('chainLinks')
        .values({
          crewId,
          seq: link.seq,
          kind: link.entry.kind,
          recordNumber,
          body: canonicalJson(link.entry.sealed.open),
          previous: link.previous,
          hash: link.hash,
          createdAtMs: atMs,
        })
        .returning('id')
        .executeTakeFirstOrThrow()
      const kept = Object.entries(link.entry.sealed.kept).map(([path, { salt, value }]) => {
        return { crewId, linkId: id, path, salt, value: canonicalJson(value), createdAtMs: atMs }
      })
      if (kept.length > 0) await db.insertInto('personalValues').values(kept).execute()
      return id
    },

    /** Links after one of them, in their order, for checks and exports that go a page at a time. */
    async pageLinks(afterSeq: number, limit: number): Promise<Link[]> {
      return withPersonal(await links().where('seq', '>', afterSeq).orderBy('seq').limit(limit).execute())
    },

    /** The record and its amendments, the oldest first; up to a link, as it stood then. */
    async linksOf(recordNumber: number, upToSeq?: number): Promise<Link[]> {
      let query = links().where('recordNumber', '=', recordNumber)
      if (upToSeq !== undefined) query = query.where('seq', '<=', upToSeq)
      return withPersonal(await query.orderBy('seq').execute())
    },

    /**
     * The links of many records at once, each record's in its order; up to a link, as they stood then. All are fetched
     * here; those of a record are made of their texts when somebody asks for its number, since whole they take ten times
     * as much memory.
     */
    async linksOfAll(
      recordNumbers: readonly number[],
      upToSeq?: number,
    ): Promise<(recordNumber: number) => readonly Link[]> {
      if (recordNumbers.length === 0) return () => []
      let query = db
        .selectFrom('chainLinks')
        .select([...LINK, 'recordNumber'])
        .where('crewId', '=', crewId)
        .where('recordNumber', 'in', [...recordNumbers])
      if (upToSeq !== undefined) query = query.where('seq', '<=', upToSeq)
      const rows = await query.orderBy('seq').execute()
      const personal = await personalOf(rows)
      const found = new Map<number, LinkRow[]>()
      for (const row of rows) {
        const known = found.get(row.recordNumber)
        if (known === undefined) found.set(row.recordNumber, [row])
        else known.push(row)
      }
      return (number) => (found.get(number) ?? []).map((row) => linkOf(row, personal.get(row.id)))
    },

    /** Takes personal values out, of some paths or all; the chain still holds. Returns how many went. */
    async removePersonal(recordNumber: number, paths?: readonly string[]): Promise<number> {
      let query = db
        .deleteFrom('personalValues')
        .where('crewId', '=', crewId)
        .where('linkId', 'in', (row) =>
          row
            .selectFrom('chainLinks')
            .select('id')
            .where('crewId', '=', crewId)
            .where('recordNumber', '=', recordNumber),
        )
      if (paths !== undefined) query = query.where('path', 'in', [...paths])
      return (await query.returning('id').execute()).length
    },

    async nextNumber(): Promise<number> {
      const row = await db
        .selectFrom('records')
        .select(({ fn }) => fn.max('number').as('newest'))
        .where('crewId', '=', crewId)
        .executeTakeFirst()
      return Number(row?.newest ?? 0) + 1
    },

    async create(
      record: Pick<RecordRow, 'number' | 'linkId' | 'personId'> & Standing,
      products: readonly string[],
      atMs: number,
    ): Promise<number> {
      const { number, linkId, personId } = record
      const { id } = await db
        .insertInto('records')
        .values({ crewId, number, linkId, personId, ...columnsOf(record), createdAtMs: atMs })
        .returning('id')
        .executeTakeFirstOrThrow()
      await keepProducts(id, products)
      return id
    },

    /** How a record stands after an amendment. */
    async restate(id: number, standing: Standing, products: readonly string[]): Promise<void> {
      const changed = await db
        .updateTable('records')
        .set(columnsOf(standing))
        .where('crewId', '=', crewId)
        .where('id', '=', id)
        .returning('id')
        .executeTakeFirst()
      if (changed === undefined) return
      await db.deleteFrom('recordProducts').where('crewId', '=', crewId).where('recordId', '=', id).execute()
      await keepProducts(id, products)
    },

    async find(number: number): Promise<RecordRow | undefined> {
      const row = await all().where('number', '=', number).executeTakeFirst()
      return row === undefined ? undefined : read(row)
    },

    /** By number, from the first after `after`; those that were kept after number `upTo` are left out. */
    async list(
      filter: RecordFilter,
      page: { readonly after?: number; readonly upTo?: number; readonly limit: number },
    ) {
      let query = matching(all(), filter).where('number', '>', page.after ?? 0)
      if (page.upTo !== undefined) query = query.where('number', '<=', page.upTo)
      const rows = await query.orderBy('number').limit(page.limit).execute()
      return rows.map(read)
    },

    /** The newest first; with `before`, those that are older than a number. */
    async listNewest(filter: RecordFilter, limit: number, before?: number): Promise<RecordRow[]> {
      let query = matching(all(), filter)
      if (before !== undefined) query = query.where('number', '<', before)
      const rows = await query.orderBy('number', 'desc').limit(limit).execute()
      return rows.map(read)
    },

    /** How many there are by the month of their day, `YYYY-MM`, the oldest first; null where no day is recorded. */
    async months(
      filter: RecordFilter,
      upTo: number,
    ): Promise<{ readonly month: string | null; readonly count: number }[]> {
      const counted = db
        .selectFrom('records')
        .select(({ fn }) => [MONTH.as('month'), fn.countAll<number>().as('count')])
        .where('crewId', '=', crewId)
        .where('number', '<=', upTo)
      const rows = await matching(counted, filter).groupBy(MONTH).execute()
      return rows
        .map(({ month, count }) => ({ month, count: Number(count) }))
        .sort((a, b) => (a.month ?? '').localeCompare(b.month ?? ''))
    },

    /** Names of all products that stand in records, also of those that the label book no longer has. */
    async productNames(): Promise<string[]> {
      const rows = await db
        .selectFrom('recordProducts')
        .select('name')
        .distinct()
        .where('crewId', '=', crewId)
        .orderBy('name')
        .execute()
      return rows.map(({ name }) => name)
    },

    /** What standing records drew from a mix, and how many they are. */
    async ofMix(mixId: number): Promise<RecordRow[]> {
      const rows = await all()
        .where('mixId', '=', mixId)
        .where('voidedAtMs', 'is', null)
        .orderBy('number')
        .execute()
      return rows.map(read)
    },

    /** A voided record, or one that was amended, no longer counts in the history of its area as it was. */
    async voidTreatments(ids: readonly number[], atMs: number): Promise<void> {
      if (ids.length === 0) return
      await db
        .updateTable('treatments')
        .set({ voidedAtMs: atMs })
        .where('crewId', '=', crewId)
        .where('id', 'in', [...ids])
        .where('voidedAtMs', 'is', null)
        .execute()
    },
  }

  function matching<O>(query: SelectQueryBuilder<Tables, 'records', O>, filter: RecordFilter) {
    let found = query
    if (filter.number !== undefined) found = found.where('number', '=', filter.number)
    if (filter.noDay === true) found = found.where('appliedOn', 'is', null)
    if (filter.siteId !== undefined) found = found.where('siteId', '=', filter.siteId)
    if (filter.areaId !== undefined) found = found.where('areaId', '=', filter.areaId)
    if (filter.personId !== undefined) found = found.where('personId', '=', filter.personId)
    if (filter.from !== undefined) found = found.where('appliedOn', '>=', filter.from)
    if (filter.to !== undefined) found = found.where('appliedOn', '<=', filter.to)
    // It stands in the words: an index of some rows is taken only where it is known that it holds those asked for.
    if (filter.complete !== undefined) found = found.where('complete', '=', sql.lit(filter.complete ? 1 : 0))
    const { product } = filter
    if (product === undefined) return found
    // Of some days few records are looked at, each for its product; of all days those of the product are gathered first.
    const isOfDays = filter.from !== undefined && filter.to !== undefined
    return found.where((is) => {
      const used = is
        .selectFrom('recordProducts')
        .select('recordId')
        .where('crewId', '=', crewId)
        .where('name', '=', product)
      return isOfDays ? is.exists(used.whereRef('recordId', '=', `${OUTER}.id`)) : is('id', 'in', used)
    })
  }
}
