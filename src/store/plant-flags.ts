import type { Transaction } from './transaction.ts'

/** A plant that somebody marked for a lead to look at, and what that lead called it. */
export interface PlantFlag {
  readonly id: number
  readonly walkId: number
  readonly turnId: number
  readonly personId: number
  readonly status: 'open' | 'named'
  readonly note: string
  /** The lead's own name for it, in the lead's words. */
  readonly name: string | null
  /** The plant of the key that the name means, where it means one. */
  readonly taxon: string | null
  readonly namedBy: number | null
  readonly namedAtMs: number | null
}
const COLUMNS = [
  'id',
  'walkId',
  'turnId',
  'personId',
  'status',
  'note',
  'name',
  'taxon',
  'namedBy',
  'namedAtMs',
] as const

/** Flagged plants; a walk has at most one flag. */
export function plantFlagsOf(db: Transaction, crewId: number) {
  const read = ({ status, ...row }: Omit<PlantFlag, 'status'> & { readonly status: string }): PlantFlag => ({
    ...row,
    status: status === 'named' ? 'named' : 'open',
  })
  const all = () => db.selectFrom('plantFlags').select(COLUMNS).where('crewId', '=', crewId)

  return {
    /** Flags a walk's plant; a second flag only adds its note. */
    async open(
      flag: Pick<PlantFlag, 'walkId' | 'turnId' | 'personId' | 'note'>,
      atMs: number,
    ): Promise<void> {
      const known = await all().where('walkId', '=', flag.walkId).executeTakeFirst()
      if (known === undefined) {
        await db
          .insertInto('plantFlags')
          .values({
            crewId,
            ...flag,
            status: 'open',
            name: null,
            taxon: null,
            namedBy: null,
            namedAtMs: null,
            createdAtMs: atMs,
          })
          .execute()
        return
      }
      const note = [known.note, flag.note].filter((one) => one !== '').join('\n')
      await db
        .updateTable('plantFlags')
        .set({ note })
        .where('crewId', '=', crewId)
        .where('id', '=', known.id)
        .execute()
    },

    async name(
      walkId: number,
      named: { readonly name: string; readonly taxon: string | null; readonly namedBy: number },
      atMs: number,
    ): Promise<void> {
      await db
        .updateTable('plantFlags')
        .set({ ...named, status: 'named', namedAtMs: atMs })
        .where('crewId', '=', crewId)
        .where('walkId', '=', walkId)
        .execute()
    },

    async ofWalk(walkId: number): Promise<PlantFlag | undefined> {
      const row = await all().where('walkId', '=', walkId).executeTakeFirst()
      return row === undefined ? undefined : read(row)
    },
  }
}
