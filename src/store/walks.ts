import { z } from 'zod'
import { Answer } from '#src/key/index.ts'
import type { Transaction } from './transaction.ts'

/** What a walk through the key needs to go on from where it stood; the answers in the order in which they came. */
export const WalkBody = z.strictObject({
  siteId: z.int().nullable(),
  areaId: z.int().nullable(),
  /** Taxon ids of the turf as somebody typed or chose it, besides what the area's record says. */
  turfs: z.array(z.string()),
  /** Somebody said that nobody knows what grows here. */
  turfUnknown: z.boolean(),
  guess: z.strictObject({ words: z.string(), ids: z.array(z.string()) }).nullable(),
  mown: z.boolean(),
  /** True when a seed head was said to be there and has not been described yet. */
  hasHead: z.boolean(),
  answers: z.array(Answer),
})
export type WalkBody = z.infer<typeof WalkBody>

/** `asking`: a question is open. `left`: somebody decided to leave the plant alone. */
export const WalkStatus = z.enum(['asking', 'weed', 'own-turf', 'hold', 'flagged', 'left'])
export type WalkStatus = z.infer<typeof WalkStatus>

export interface KeptWalk {
  readonly id: number
  /** The number of its first answer, under which people resume it. */
  readonly number: number
  readonly personId: number
  readonly status: WalkStatus
  readonly body: WalkBody
  readonly changedAtMs: number
}

interface Row {
  readonly id: number
  readonly number: number
  readonly personId: number
  readonly status: string
  readonly body: string
  readonly changedAtMs: number
}
const COLUMNS = ['id', 'number', 'personId', 'status', 'body', 'changedAtMs'] as const

const read = (row: Row): KeptWalk => ({
  ...row,
  status: WalkStatus.parse(row.status),
  body: WalkBody.parse(JSON.parse(row.body)),
})

/** Walks through the guided key: kept at every step, so that they are taken up again days later. */
export function walksOf(db: Transaction, crewId: number) {
  const all = () => db.selectFrom('walks').select(COLUMNS).where('crewId', '=', crewId)

  return {
    async create(
      walk: Pick<KeptWalk, 'number' | 'personId' | 'status' | 'body'>,
      atMs: number,
    ): Promise<number> {
      const { id } = await db
        .insertInto('walks')
        .values({
          crewId,
          number: walk.number,
          personId: walk.personId,
          siteId: walk.body.siteId,
          areaId: walk.body.areaId,
          status: walk.status,
          body: JSON.stringify(walk.body),
          changedAtMs: atMs,
          createdAtMs: atMs,
        })
        .returning('id')
        .executeTakeFirstOrThrow()
      return id
    },

    async update(id: number, change: Pick<KeptWalk, 'status' | 'body'>, atMs: number): Promise<void> {
      await db
        .updateTable('walks')
        .set({
          siteId: change.body.siteId,
          areaId: change.body.areaId,
          status: change.status,
          body: JSON.stringify(change.body),
          changedAtMs: atMs,
        })
        .where('crewId', '=', crewId)
        .where('id', '=', id)
        .execute()
    },

    async get(id: number): Promise<KeptWalk | undefined> {
      const row = await all().where('id', '=', id).executeTakeFirst()
      return row === undefined ? undefined : read(row)
    },

    async findByNumber(number: number): Promise<KeptWalk | undefined> {
      const row = await all().where('number', '=', number).executeTakeFirst()
      return row === undefined ? undefined : read(row)
    },

    /** Walks without an end, the latest first. */
    async listOpen(limit: number): Promise<KeptWalk[]> {
      const rows = await all()
        .where('status', 'in', ['asking', 'hold', 'flagged'])
        .orderBy('changedAtMs', 'desc')
        .orderBy('id', 'desc')
        .limit(limit)
        .execute()
      return rows.map(read)
    },
  }
}
