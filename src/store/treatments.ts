import { z } from 'zod'
import { prepared } from './prepared.ts'
import { remembered } from './remembered.ts'
import type { Transaction } from './transaction.ts'

const Amount = z.strictObject({ value: z.string(), unit: z.string() })

/** What was put on an area, as far as later checks need it. */
export const TreatmentDetails = z.strictObject({
  product: z.string(),
  /** Product per area as applied, in the label's printed unit. */
  rate: z.string(),
  lineId: z.string().nullable().default(null),
  treatedFt2: z.string(),
  amount: Amount.nullable().default(null),
  /** Same ground as an earlier treatment; null when nobody said. */
  note: z.string().default(''),
})
export type TreatmentDetails = z.infer<typeof TreatmentDetails>

export interface Treatment {
  readonly id: number
  readonly areaId: number
  readonly entryId: number
  readonly revisionId: number
  readonly personId: number
  readonly details: TreatmentDetails
  readonly treatedOn: string
}

const readDetails = remembered(TreatmentDetails)

const sinceThatDay = prepared((db, crewId: number, areaId: number, from: string) =>
  db
    .selectFrom('treatments')
    .select(['id', 'areaId', 'entryId', 'revisionId', 'personId', 'details', 'treatedOn'])
    .where('crewId', '=', crewId)
    .where('areaId', '=', areaId)
    .where('treatedOn', '>=', from)
    .where('voidedAtMs', 'is', null)
    .orderBy('treatedOn')
    .orderBy('id'),
)

export function treatmentsOf(db: Transaction, crewId: number) {
  return {
    async add(treatment: Omit<Treatment, 'id'>, atMs: number): Promise<number> {
      const { id } = await db
        .insertInto('treatments')
        .values({
          crewId,
          areaId: treatment.areaId,
          entryId: treatment.entryId,
          revisionId: treatment.revisionId,
          personId: treatment.personId,
          details: JSON.stringify(treatment.details),
          treatedOn: treatment.treatedOn,
          voidedAtMs: null,
          createdAtMs: atMs,
        })
        .returning('id')
        .executeTakeFirstOrThrow()
      return id
    },

    /** Oldest first, from a plain day on. */
    async list(areaId: number, from: string): Promise<Treatment[]> {
      const { rows } = await sinceThatDay(db, crewId, areaId, from)
      return rows.map((row) => ({ ...row, details: readDetails(row.details) }))
    },
  }
}
