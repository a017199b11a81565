import { sql } from 'kysely'
import { z } from 'zod'
import { canonicalJson } from '#src/record/canonical.ts'
import { Amount } from '#src/record/product.ts'
import { prepared } from './prepared.ts'
import type { Transaction } from './transaction.ts'

/**
 * `in`: came in. `count`: so much was there, counted. `used`: a record used it. `low`: below so much the leads hear of
 * it; zero for never.
 */
const MovementKind = z.enum(['in', 'count', 'used', 'low'])
export type MovementKind = z.infer<typeof MovementKind>

export interface StockMovement {
  readonly id: number
  readonly personId: number
  readonly product: string
  readonly kind: MovementKind
  readonly amount: Amount
  /** When it happened, which is not always when it was written down. */
  readonly atMs: number
  readonly lot: string | null
  /** The record that used it, as that version of the record said. */
  readonly recordNumber: number | null
  readonly version: number | null
}

const COLUMNS = [
  'id',
  'personId',
  'product',
  'kind',
  'amount',
  'atMs',
  'lot',
  'recordNumber',
  'version',
] as const

type Row = Omit<StockMovement, 'kind' | 'amount'> & { readonly kind: string; readonly amount: string }

const read = (row: Row): StockMovement => ({
  ...row,
  kind: MovementKind.parse(row.kind),
  amount: Amount.parse(JSON.parse(row.amount)),
})

/** The kind stands in the words: an index of some rows is taken only where it is known that it holds those asked for. */
const enteredOf = prepared((db, crewId: number, product: string) =>
  db
    .selectFrom('stockMovements')
    .select(COLUMNS)
    .where('crewId', '=', crewId)
    .where('product', '=', product)
    .where('kind', '!=', sql.lit('used'))
    .where('voidedAtMs', 'is', null),
)

/** What a crew has of each product. Rows are only added; what a record used is voided when the record changes. */
export function stockOf(db: Transaction, crewId: number) {
  const all = () => db.selectFrom('stockMovements').select(COLUMNS).where('crewId', '=', crewId)

  return {
    async add(
      movement: Pick<StockMovement, 'personId' | 'product' | 'amount' | 'atMs' | 'lot'> & {
        readonly kind: 'in' | 'count' | 'low'
      },
      createdAtMs: number,
    ): Promise<number> {
      const { id } = await db
        .insertInto('stockMovements')
        .values({
          crewId,
          ...movement,
          amount: canonicalJson(movement.amount),
          recordNumber: null,
          version: null,
          place: null,
          voidedAtMs: null,
          createdAtMs,
        })
        .returning('id')
        .executeTakeFirstOrThrow()
      return id
    },

    /**
     * What a version of a record used, instead of what its earlier versions did. A version that is written already, or
     * one before it, changes nothing.
     */
    async use(
      record: { readonly number: number; readonly version: number; readonly personId: number },
      used: readonly Pick<StockMovement, 'product' | 'amount' | 'atMs'>[],
      createdAtMs: number,
    ): Promise<void> {
      const newest = await db
        .selectFrom('stockMovements')
        .select(({ fn }) => fn.max('version').as('version'))
        .where('crewId', '=', crewId)
        .where('recordNumber', '=', record.number)
        .executeTakeFirst()
      if (Number(newest?.version ?? 0) >= record.version) return
      await db
        .updateTable('stockMovements')
        .set({ voidedAtMs: createdAtMs })
        .where('crewId', '=', crewId)
        .where('recordNumber', '=', record.number)
        .where('voidedAtMs', 'is', null)
        .execute()
      for (const [place, { product, amount, atMs }] of used.entries())
        await db
          .insertInto('stockMovements')
          .values({
            crewId,
            personId: record.personId,
            product,
            kind: 'used',
            amount: canonicalJson(amount),
            atMs,
            lot: null,
            recordNumber: record.number,
            version: record.version,
            place,
            voidedAtMs: null,
            createdAtMs,
          })
          .execute()
    },

    /** All that counts for one product, or for all of them, the earliest first. */
    async list(product?: string): Promise<StockMovement[]> {
      let query = all().where('voidedAtMs', 'is', null)
      if (product !== undefined) query = query.where('product', '=', product)
      const rows = await query.orderBy('atMs').orderBy('id').execute()
      return rows.map(read)
    },

    /** Products that ever came in, were counted or used, by name. */
    async products(): Promise<string[]> {
      const rows = await db
        .selectFrom('stockMovements')
        .select('product')
        .distinct()
        .where('crewId', '=', crewId)
        .where('voidedAtMs', 'is', null)
        .orderBy('product')
        .execute()
      return rows.map(({ product }) => product)
    },

    /** What somebody has written down of a product: came in, was counted, was marked. Few beside what records used. */
    async entered(product: string): Promise<StockMovement[]> {
      const { rows } = await enteredOf(db, crewId, product)
      return rows.map(read)
    },

    /** What records used of a product after this moment, or ever. */
    async usedAfter(product: string, atMs: number | null): Promise<StockMovement[]> {
      let query = all()
        .where('product', '=', product)
        .where('kind', '=', 'used')
        .where('voidedAtMs', 'is', null)
      if (atMs !== null) query = query.where('atMs', '>', atMs)
      return (await query.execute()).map(read)
    },

    /** What happened to a product last, the newest first. */
    async latest(product: string, limit: number): Promise<StockMovement[]> {
      const rows = await all()
        .where('product', '=', product)
        .where('voidedAtMs', 'is', null)
        .orderBy('atMs', 'desc')
        .orderBy('id', 'desc')
        .limit(limit)
        .execute()
      return rows.map(read)
    },
  }
}
