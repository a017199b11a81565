import { setTimeout as wait } from 'node:timers/promises'
import { type REST, Routes } from 'discord.js'
import { BoundedMap } from '#src/memory/bounded-map.ts'
import type { Log } from './log.ts'
import { describeError, isUnknownMember } from './platform-error.ts'

/** Whether this person is in that server now; null when the platform does not say. */
export type IsMember = (guildId: string, personId: string) => Promise<boolean | null>

/** Somebody who leaves a server is a stranger to its crew after this time at the latest. */
const FRESH_MS = 5 * 60_000
/** A direct message may wait this long, out of three seconds. */
const WAIT_MS = 1200

/**
 * Asks the platform whether a person is still in a server. Direct messages do not tell it, and without an intent of
 * its own nobody tells when somebody is removed. What was heard stays good for minutes, and through an outage.
 */
export function memberFinder(rest: REST, log: Log, nowMs: () => number): IsMember {
  const heard = new BoundedMap<string, { readonly isIn: boolean; readonly atMs: number }>(10_000)
  const ask = async (guildId: string, personId: string): Promise<boolean | null> => {
    const key = `${guildId}/${personId}`
    try {
      await rest.get(Routes.guildMember(guildId, personId))
      heard.set(key, { isIn: true, atMs: nowMs() })
      return true
    } catch (error) {
      if (isUnknownMember(error)) {
        heard.set(key, { isIn: false, atMs: nowMs() })
        return false
      }
      log.warn({ guild: guildId, error: describeError(error) }, 'cannot see whether a person is in a server')
      return heard.get(key)?.isIn ?? null
    }
  }
  return async (guildId, personId) => {
    const known = heard.get(`${guildId}/${personId}`)
    if (known !== undefined && Math.abs(nowMs() - known.atMs) < FRESH_MS) return known.isIn
    return Promise.race([ask(guildId, personId), wait(WAIT_MS, known?.isIn ?? null, { ref: false })])
  }
}
