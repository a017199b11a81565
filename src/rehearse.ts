import { tmpdir } from 'node:os'
import { pino } from 'pino'
import { openBot } from './bot.ts'
import type { Command } from './desk/command.ts'
import { defineAndKeep, keptOfStart } from './live.ts'
import { answerOn } from './messengers/discord/answer-on.ts'
import { buildClient } from './messengers/discord/client.ts'
import { DEFAULT_ZONE } from './settings.ts'

/**
 * Does what every start on Discord does but for logging in, and loads what its first answer takes, on a store that is
 * gone with it: a build sees that what it has made starts, and keeps what the engine has made of its text.
 * @throws what a start would throw
 */
export async function rehearse(load: () => Promise<readonly Command[]>): Promise<void> {
  const kept = keptOfStart()
  const bot = await openBot({
    address: { engine: 'sqlite', path: ':memory:' },
    purpose: 'live',
    filesFolder: tmpdir(),
    zone: DEFAULT_ZONE,
    commands: await load(),
    fetchFile: () => Promise.reject(new Error('A rehearsal fetches nothing')),
    reportError(error) {
      throw error
    },
  })
  await defineAndKeep(bot.registry, bot.words, kept)
  const log = pino({ enabled: false })
  const client = buildClient({ log, onInteraction() {}, onEnded() {} })
  answerOn({ ...bot, rest: client.rest, log, nowMs: Date.now, crewsOf: async () => [] })
  await client.destroy()
  await bot.close()
}
