import { tmpdir } from 'node:os'
import { pino } from 'pino'
import { openBot } from './bot.ts'
import type { Command } from './desk/command.ts'
import './live.ts'
import { buildClient } from './messengers/discord/client.ts'
import { defineAll } from './messengers/discord/definitions.ts'
import { DEFAULT_ZONE } from './settings.ts'

/**
 * Does what every start on Discord does but for logging in, on a store that is gone with it: a build sees that what it
 * has made starts, and keeps what the engine has made of its text.
 * @throws what a start would throw
 */
export async function rehearse(commands: readonly Command[]): Promise<void> {
  const bot = await openBot({
    address: { engine: 'sqlite', path: ':memory:' },
    purpose: 'live',
    filesFolder: tmpdir(),
    zone: DEFAULT_ZONE,
    commands,
    fetchFile: () => Promise.reject(new Error('A rehearsal fetches nothing')),
    reportError(error) {
      throw error
    },
  })
  defineAll(bot.registry, bot.words)
  const client = buildClient({ log: pino({ enabled: false }), onInteraction() {}, onEnded() {} })
  await client.destroy()
  await bot.close()
}
