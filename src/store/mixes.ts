import { sql } from 'kysely'
import { z } from 'zod'
import { Output, quantityOf, Rate } from '#src/quantity/rate.ts'
import { amountUnits, volumeUnits } from '#src/quantity/units.ts'
import { remembered } from './remembered.ts'
import type { Transaction } from './transaction.ts'

const MixedProduct = z.strictObject({
  /** Null for a rate that was typed off a label in hand: the log asks for the name. */
  name: z.string().nullable(),
  entryId: z.int().nullable(),
  revisionId: z.int().nullable(),
  lineId: z.string().nullable(),
  /** As it was asked for. */
  rate: Rate,
  /** Product in the whole of the mix, with what was in the tank already; null when that cannot be told. */
  amount: quantityOf(amountUnits).nullable(),
})
export type MixedProduct = z.infer<typeof MixedProduct>

/** One tank, or all the loads of a job, as they were worked out: what a log draws from. */
export const MixBody = z.strictObject({
  products: z.array(MixedProduct).min(1).max(6),
  adjuvants: z.array(z.strictObject({ name: z.string(), amount: quantityOf(amountUnits).nullable() })).max(6),
  /** All finished mix, with what was in the tank already. */
  made: quantityOf(volumeUnits),
  loads: z.int().min(1),
  output: Output.nullable(),
  sprayerId: z.int().nullable(),
  /** Who was going to spray it. */
  forId: z.int().nullable(),
  /** The day's sites, in the order of typing. */
  places: z.array(z.strictObject({ siteId: z.int(), areaId: z.int().nullable() })).max(12),
  weed: z.string().nullable(),
  /** Which ground of that area was meant, where it was treated before and somebody was asked. */
  spots: z.enum(['same', 'other', 'missed strip']).exactOptional(),
})
export type MixBody = z.infer<typeof MixBody>

export interface KeptMix {
  readonly id: number
  readonly number: number
  readonly personId: number
  readonly body: MixBody
  /** Why nothing more comes out of it; null while something may. */
  readonly closedAs: string | null
  readonly createdAtMs: number
}

const COLUMNS = ['id', 'number', 'personId', 'body', 'closedAs', 'createdAtMs'] as const

const readBody = remembered(MixBody)

/** Mixes by number within the crew. Several logs may draw from one. */
export function mixesOf(db: Transaction, crewId: number) {
  const all = () => db.selectFrom('mixes').select(COLUMNS).where('crewId', '=', crewId)
  const read = (row: Omit<KeptMix, 'body'> & { readonly body: string }): KeptMix => ({
    ...row,
    body: readBody(row.body),
  })

  return {
    async create(personId: number, body: MixBody, atMs: number): Promise<KeptMix> {
      const row = await db
        .insertInto('mixes')
        .values({
          crewId,
          number: sql<number>`(select coalesce(max(number), 0) + 1 from mixes where crew_id = ${crewId})`,
          personId,
          body: JSON.stringify(body),
          closedAs: null,
          closedAtMs: null,
          createdAtMs: atMs,
        })
        .returning(COLUMNS)
        .executeTakeFirstOrThrow()
      return read(row)
    },

    async get(id: number): Promise<KeptMix | undefined> {
      const row = await all().where('id', '=', id).executeTakeFirst()
      return row === undefined ? undefined : read(row)
    },

    async findByNumber(number: number): Promise<KeptMix | undefined> {
      const row = await all().where('number', '=', number).executeTakeFirst()
      return row === undefined ? undefined : read(row)
    },

    /** Those of one person from which more may come, the newest first. */
    async listOpen(personId: number, limit: number): Promise<KeptMix[]> {
      const rows = await all()
        .where('personId', '=', personId)
        .where('closedAs', 'is', null)
        .orderBy('id', 'desc')
        .limit(limit)
        .execute()
      return rows.map(read)
    },

    async close(id: number, closedAs: 'used up' | 'not sprayed', atMs: number): Promise<void> {
      await db
        .updateTable('mixes')
        .set({ closedAs, closedAtMs: atMs })
        .where('crewId', '=', crewId)
        .where('id', '=', id)
        .where('closedAs', 'is', null)
        .execute()
    },
  }
}
