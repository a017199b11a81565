import { setTimeout as wait } from 'node:timers/promises'
import { type REST, Routes } from 'discord.js'
import { z } from 'zod'
import { BoundedMap } from '#src/memory/bounded-map.ts'
import type { Log } from './log.ts'
import { describeError } from './platform-error.ts'

const Guild = z.object({ name: z.string().min(1) })
/** The first answer in a server may wait this long for its name, out of three seconds. */
const WAIT_MS = 500
/** A server that refused is not asked at every request: refusals are counted by the platform. */
const REFUSED_MS = 10 * 60_000

/**
 * Names of servers. Payloads do not carry them, and the intent that would keeps 29 KB a server in memory; so each is
 * asked for once, when its first request comes, and a slow answer is not waited for: null, until it is there.
 */
export function crewNames(
  rest: REST,
  log: Log,
  nowMs: () => number,
): (guildId: string) => Promise<string | null> {
  const known = new BoundedMap<string, { readonly name: string | null; readonly untilMs: number }>(10_000)
  const asked = new BoundedMap<string, Promise<string | null>>(1000)
  const ask = async (guildId: string): Promise<string | null> => {
    try {
      const { name } = Guild.parse(await rest.get(Routes.guild(guildId)))
      known.set(guildId, { name, untilMs: Number.POSITIVE_INFINITY })
      return name
    } catch (error) {
      log.debug({ guild: guildId, error: describeError(error) }, 'the server did not tell its name')
      known.set(guildId, { name: null, untilMs: nowMs() + REFUSED_MS })
      return null
    } finally {
      asked.delete(guildId)
    }
  }
  return async (guildId) => {
    const found = known.get(guildId)
    if (found !== undefined && found.untilMs > nowMs()) return found.name
    const asking = asked.get(guildId) ?? ask(guildId)
    asked.set(guildId, asking)
    return Promise.race([asking, wait(WAIT_MS, null, { ref: false })])
  }
}
