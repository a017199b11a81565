/** The adapter as a process of its own: signals, exit codes and stray rejections cannot be seen from inside. */
import { pino } from 'pino'
import { defineAll } from '#src/messengers/discord/definitions.ts'
import { endWithSignals } from '#src/messengers/discord/signals.ts'
import { openDatabase } from '#src/store/open.ts'
import { startDiscord } from '#tests/helpers/start-discord.ts'
import { toyDesk, words } from './desk.ts'
import { drawsOne } from './draws.ts'
import { toyRegistry } from './toys.ts'

const { DISCORD_API: api = '', DISCORD_TOKEN: token = '' } = process.env
const log = pino({ level: 'debug' })
const database = await openDatabase({ engine: 'sqlite', path: ':memory:' }, 'practice')
const desk = toyDesk(database, new URL(api).host, (error, about) => log.error({ ...about, error }, 'desk'))
const discord = await startDiscord({
  token,
  api,
  desk,
  registry: toyRegistry,
  define: () => defineAll(toyRegistry, words),
  words,
  suggest: async () => [],
  crewsOf: async () => [],
  draw: drawsOne(async () => {
    await new Promise((done) => setTimeout(done, 300))
    return new Uint8Array([1, 2, 3])
  }),
  log,
})
endWithSignals(discord, log, () => database.close())
