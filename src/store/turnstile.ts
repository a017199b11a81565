import { setTimeout as pause } from 'node:timers/promises'
import { sql } from 'kysely'
import type { Database } from './open.ts'

/** One that passed holds up the next for this long: two identifies of one key lie five seconds apart. */
const GAP_MS = 5100
const LOOK_MS = 200
/** Whoever is that far ahead passed by a clock that was put right since. */
const BEYOND_MS = 60_000

/**
 * Lets one at a time through of all processes on the same PostgreSQL, by the clock of the server. Nothing is held
 * meanwhile, so that a process that dies holds up nobody. @throws what the engine says, or the signal's reason
 */
export function turnstile({ db }: Database, name: string, gapMs: number = GAP_MS) {
  return async (key: number, signal: AbortSignal): Promise<void> => {
    for (;;) {
      signal.throwIfAborted()
      const { rows } = await sql`
        insert into meta as held (name, value)
        values (${`${name}-${key}`}, (${now} + ${gapMs}::bigint)::text)
        on conflict (name) do update set value = excluded.value
        where held.value::bigint <= ${now} or held.value::bigint > ${now} + ${BEYOND_MS}::bigint
        returning 1
      `.execute(db)
      if (rows.length > 0) return
      await pause(LOOK_MS * (0.75 + Math.random() / 2), undefined, { signal })
    }
  }
}

const now = sql`(extract(epoch from clock_timestamp()) * 1000)::bigint`
