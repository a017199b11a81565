import { tmpdir } from 'node:os'
import { pino } from 'pino'
import { openBotWith } from './bot.ts'
import type { Command } from './desk/command.ts'
import { laterCommands } from './desk/registry.ts'
import { defineAndKeep, keptOfStart } from './live.ts'
import { buildClient } from './messengers/discord/client.ts'
import { DEFAULT_ZONE } from './settings.ts'

/**
 * Does what every start on Discord does but for logging in, on a store that is gone with it: a build sees that what it
 * has made starts, and keeps what the engine has made of its text.
 * @throws what a start would throw
 */
export async function rehearse(load: () => Promise<readonly Command[]>): Promise<void> {
  const kept = keptOfStart()
  const bot = await openBotWith({
    address: { engine: 'sqlite', path: ':memory:' },
    purpose: 'live',
    filesFolder: tmpdir(),
    zone: DEFAULT_ZONE,
    registry: laterCommands(load),
    fetchFile: () => Promise.reject(new Error('A rehearsal fetches nothing')),
    reportError(error) {
      throw error
    },
  })
  await defineAndKeep(bot, kept)
  const client = buildClient({ log: pino({ enabled: false }), onInteraction() {}, onEnded() {} })
  await client.destroy()
  await bot.close()
}
