import { z } from 'zod'
import { Decimal } from '#src/quantity/rate.ts'
import type { Transaction } from './transaction.ts'

/** `treated`: a marked spot of the treated ground. `untreated`: one that was left out, to compare with. */
export const PlotKind = z.enum(['treated', 'untreated'])
export type PlotKind = z.infer<typeof PlotKind>

/** Where it is and how it looked before, as somebody said; empty text means that nobody did. */
export const PlotBody = z.strictObject({
  where: z.string().default(''),
  pin: z.strictObject({ latitude: Decimal, longitude: Decimal }).nullable().default(null),
  size: z.string().default(''),
  /** Share of the ground that living weed covered before the treatment. */
  coverPercent: z.int().min(0).max(100).nullable().default(null),
})
export type PlotBody = z.infer<typeof PlotBody>

export interface Plot {
  readonly id: number
  readonly recordNumber: number
  readonly areaId: number | null
  readonly kind: PlotKind
  /** What stands on the flag. */
  readonly flag: string
  readonly body: PlotBody
  readonly personId: number
  readonly createdAtMs: number
}

const COLUMNS = ['id', 'recordNumber', 'areaId', 'kind', 'flag', 'body', 'personId', 'createdAtMs'] as const

/** Marked spots of an application; a flag stands once in each. */
export function plotsOf(db: Transaction, crewId: number) {
  return {
    async create(plot: Omit<Plot, 'id' | 'createdAtMs'>, atMs: number): Promise<number> {
      const { body, ...rest } = plot
      const { id } = await db
        .insertInto('plots')
        .values({ crewId, ...rest, body: JSON.stringify(body), createdAtMs: atMs })
        .returning('id')
        .executeTakeFirstOrThrow()
      return id
    },

    /** In the order in which they were marked. */
    async list(recordNumber: number): Promise<Plot[]> {
      const rows = await db
        .selectFrom('plots')
        .select(COLUMNS)
        .where('crewId', '=', crewId)
        .where('recordNumber', '=', recordNumber)
        .orderBy('id')
        .execute()
      return rows.map((row) => ({
        ...row,
        kind: PlotKind.parse(row.kind),
        body: PlotBody.parse(JSON.parse(row.body)),
      }))
    },
  }
}
