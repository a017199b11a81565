import { createHash } from 'node:crypto'
import { z } from 'zod'
import { LookPlan, nextLookOf } from '#src/recheck/plan.ts'
import type { Database } from './open.ts'
import type { Transaction } from './transaction.ts'

/** `open`: nobody has said yet. `marked`: there is one. `none`: the client allows none. */
export const UntreatedSpot = z.enum(['open', 'marked', 'none'])
export type UntreatedSpot = z.infer<typeof UntreatedSpot>

/** All looks after one application, or at one plant that could not be named. */
export interface KeptVisits {
  readonly id: number
  /** Number of the application's record; null for a held plant. */
  readonly recordNumber: number | null
  /** The walk through the key that ended in a hold; null for an application. */
  readonly walkId: number | null
  readonly siteId: number | null
  readonly areaId: number | null
  /** Who looks, unless a look was handed to somebody else. */
  readonly ownerId: number
  readonly plan: LookPlan
  readonly untreated: UntreatedSpot
}

type Row = Omit<KeptVisits, 'plan' | 'untreated'> & { readonly plan: string; readonly untreated: string }

const COLUMNS = ['id', 'recordNumber', 'walkId', 'siteId', 'areaId', 'ownerId', 'plan', 'untreated'] as const

const read = (row: Row): KeptVisits => ({
  ...row,
  plan: LookPlan.parse(JSON.parse(row.plan)),
  untreated: UntreatedSpot.parse(row.untreated),
})

/** The plan as it is kept, and the day of its first open look, by which what is due is found. */
const columnsOf = (plan: LookPlan) => ({
  plan: JSON.stringify(plan),
  openOn: nextLookOf(plan)?.visitOn ?? null,
})

export function visitsOf(db: Transaction, crewId: number) {
  const all = () => db.selectFrom('visits').select(COLUMNS).where('crewId', '=', crewId)

  return {
    async create(visits: Omit<KeptVisits, 'id'>, atMs: number): Promise<number> {
      const { plan, ...rest } = visits
      const { id } = await db
        .insertInto('visits')
        .values({ crewId, ...rest, ...columnsOf(plan), changedAtMs: atMs, createdAtMs: atMs })
        .returning('id')
        .executeTakeFirstOrThrow()
      return id
    },

    async get(id: number): Promise<KeptVisits | undefined> {
      const row = await all().where('id', '=', id).executeTakeFirst()
      return row === undefined ? undefined : read(row)
    },

    async ofRecord(recordNumber: number): Promise<KeptVisits | undefined> {
      const row = await all().where('recordNumber', '=', recordNumber).executeTakeFirst()
      return row === undefined ? undefined : read(row)
    },

    async ofWalk(walkId: number): Promise<KeptVisits | undefined> {
      const row = await all().where('walkId', '=', walkId).executeTakeFirst()
      return row === undefined ? undefined : read(row)
    },

    /** Those on one area, the oldest first. */
    async ofArea(areaId: number): Promise<KeptVisits[]> {
      return (await all().where('areaId', '=', areaId).orderBy('id').execute()).map(read)
    },

    /**
     * Those with a look that is still open on this day, or becomes so until then; the oldest first. Nobody goes back
     * to an application whose record was voided.
     */
    async listOpen(until: string): Promise<KeptVisits[]> {
      const rows = await all()
        .where('openOn', 'is not', null)
        .where('openOn', '<=', until)
        .where(({ not, exists, selectFrom }) =>
          not(
            exists(
              selectFrom('records')
                .select('records.createdAtMs')
                .whereRef('records.crewId', '=', 'visits.crewId')
                .whereRef('records.number', '=', 'visits.recordNumber')
                .where('records.voidedAtMs', 'is not', null),
            ),
          ),
        )
        .orderBy('openOn')
        .orderBy('id')
        .execute()
      return rows.map(read)
    },

    async update(
      id: number,
      change: { readonly plan?: LookPlan; readonly untreated?: UntreatedSpot; readonly ownerId?: number },
      atMs: number,
    ): Promise<void> {
      const { plan, ...rest } = change
      await db
        .updateTable('visits')
        .set({ ...rest, ...(plan === undefined ? {} : columnsOf(plan)), changedAtMs: atMs })
        .where('crewId', '=', crewId)
        .where('id', '=', id)
        .execute()
    },
  }
}

/**
 * Crews that have a look open on this day or before it, each with a sign of all that decides when its reminders leave:
 * the looks, the crew's hours and its people. While the sign is the same, so is the plan. Days differ by zone, so the
 * caller looks a day ahead.
 */
export async function signsOfOpenVisits(
  db: Transaction | Database['db'],
  until: string,
): Promise<ReadonlyMap<number, string>> {
  const open = db.selectFrom('visits').where('openOn', 'is not', null).where('openOn', '<=', until)
  const looks = await open
    .select(({ fn }) => [
      'crewId',
      fn.countAll<number>().as('count'),
      fn.max('changedAtMs').as('newest'),
      fn.sum<number>('changedAtMs').as('all'),
    ])
    .groupBy('crewId')
    .orderBy('crewId')
    .execute()
  if (looks.length === 0) return new Map()
  const crews = await db
    .selectFrom('crews')
    .select(['id as crewId', 'zone', 'settings'])
    .where('id', 'in', open.select('crewId'))
    .execute()
  const people = await db
    .selectFrom('people')
    .select(['crewId', 'id', 'role', 'leadsByMessenger', 'settings', 'removedAtMs'])
    .where('crewId', 'in', open.select('crewId'))
    .orderBy('crewId')
    .orderBy('id')
    .execute()
  const hashes = new Map(looks.map(({ crewId }) => [crewId, createHash('sha256')]))
  for (const row of [...looks, ...crews, ...people])
    hashes.get(row.crewId)?.update(`${JSON.stringify(row)}\n`)
  return new Map([...hashes].map(([crewId, hash]) => [crewId, hash.digest('base64')]))
}
