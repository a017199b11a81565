import { onTestFinished } from 'vitest'
import type { Suggest, Suggestion } from '#src/conversation/ask.ts'
import { defineAll } from '#src/messengers/discord/definitions.ts'
import type { Discord } from '#src/messengers/discord/start.ts'
import { type Database, openDatabase } from '#src/store/open.ts'
import {
  type DiscordStandIn,
  type StandInSettings,
  startDiscord as startStandIn,
} from '#tests/discord-loopback/index.ts'
import { freshAddress } from '#tests/helpers/fresh-address.ts'
import { type EagerOptions, startDiscord as startAdapter } from '#tests/helpers/start-discord.ts'
import { toyDesk, words } from './desk.ts'
import { drawsOne } from './draws.ts'
import { toyRegistry } from './toys.ts'

export { words }

export interface LogLine {
  readonly level: 'debug' | 'info' | 'warn' | 'error'
  readonly message: string
  readonly about: Readonly<Record<string, unknown>>
}

export interface Rig {
  readonly platform: DiscordStandIn
  readonly discord: Discord
  readonly database: Database
  readonly lines: LogLine[]
  /** Another process on the same store and platform, after the first has left. */
  restart(): Promise<Discord>
  /** Answers kept by the desk. */
  turns(): Promise<number>
}

export interface RigOptions {
  readonly world?: StandInSettings
  readonly adapter?: Partial<EagerOptions>
  readonly suggest?: (asked: Suggest) => Promise<readonly Suggestion[]>
}

/** A stand-in, a desk of toy commands on a fresh store, and the adapter between them; ended with the test. */
export async function startRig({ world = {}, adapter = {}, suggest }: RigOptions = {}): Promise<Rig> {
  const platform = await startStandIn({ identifyIntervalMs: 0, ...world })
  const database = await openDatabase(await freshAddress(), 'practice')
  const lines: LogLine[] = []
  const note = (level: LogLine['level']) => (about: object, message: string) => {
    lines.push({ level, message, about: { ...about } })
  }
  const log = { debug: note('debug'), info: note('info'), warn: note('warn'), error: note('error') }
  const desk = toyDesk(database, `127.0.0.1:${platform.port}`, (error, about) =>
    note('error')({ ...about, error: String(error) }, 'desk'),
  )
  const start = () =>
    startAdapter({
      token: platform.token,
      api: platform.api,
      desk,
      registry: toyRegistry,
      define: () => defineAll(toyRegistry, words),
      words,
      suggest: suggest ?? (async () => []),
      crewsOf: async () => [],
      draw: drawsOne(async () => PNG, typeOf),
      log,
      pausesMs: [5, 5, 5],
      nowMs: () => platform.clock.nowMs(),
      ...adapter,
    })
  let discord = await start()
  onTestFinished(async () => {
    await discord.stop(2000)
    await platform.stop()
    await database.close()
  })
  return {
    platform,
    database,
    lines,
    get discord() {
      return discord
    },
    async restart() {
      await discord.stop(2000)
      discord = await start()
      return discord
    },
    async turns() {
      const { count } = await database.db
        .selectFrom('turns')
        .select((row) => row.fn.countAll<number>().as('count'))
        .executeTakeFirstOrThrow()
      return Number(count)
    },
  }
}

const PNG = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
)
const typeOf = (name: string) => (name.endsWith('.pdf') ? 'application/pdf' : 'image/png')
