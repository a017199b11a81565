import { Rating } from '#src/efficacy/rating.ts'
import type { Transaction } from './transaction.ts'

/** What somebody saw on one visit. Never changed: a later one stands beside it. */
export interface KeptRating {
  readonly id: number
  readonly visitId: number
  /** The look that it answered; null when none was planned. */
  readonly lookId: string | null
  readonly personId: number
  readonly rating: Rating
}

export function ratingsOf(db: Transaction, crewId: number) {
  return {
    async add(rating: Omit<KeptRating, 'id'>, atMs: number): Promise<number> {
      const { rating: seen, ...rest } = rating
      const { id } = await db
        .insertInto('ratings')
        .values({
          crewId,
          ...rest,
          ratedOn: seen.on,
          body: JSON.stringify(seen),
          createdAtMs: atMs,
        })
        .returning('id')
        .executeTakeFirstOrThrow()
      return id
    },

    /** In the order in which they were given. */
    async list(visitId: number): Promise<KeptRating[]> {
      const rows = await db
        .selectFrom('ratings')
        .select(['id', 'visitId', 'lookId', 'personId', 'body'])
        .where('crewId', '=', crewId)
        .where('visitId', '=', visitId)
        .orderBy('id')
        .execute()
      return rows.map(({ body, ...row }) => ({ ...row, rating: Rating.parse(JSON.parse(body)) }))
    },
  }
}
