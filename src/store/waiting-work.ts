import type { Database } from './open.ts'

/**
 * Whether anything may have to leave by now: a message that is due, or a look at treated ground that is open. In doubt it
 * says so. Cheaper than finding out what: a start asks it before it loads what sends.
 * @param until the last day, YYYY-MM-DD, on which a look counts as open
 */
export async function mayHaveWork({ db }: Database, nowMs: number, until: string): Promise<boolean> {
  const due = await db
    .selectFrom('deliveries')
    .select('id')
    .where('sentAtMs', 'is', null)
    .where('dueAtMs', '<=', nowMs)
    .limit(1)
    .execute()
  if (due.length > 0) return true
  const open = await db
    .selectFrom('visits')
    .select('id')
    .where('openOn', 'is not', null)
    .where('openOn', '<=', until)
    .limit(1)
    .execute()
  return open.length > 0
}
