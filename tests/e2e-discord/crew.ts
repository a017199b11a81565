import path from 'node:path'
import { expect, onTestFinished, vi } from 'vitest'
import { commands } from '#commands/index.ts'
import { type Bot, openBot } from '#src/bot.ts'
import { deliverWith } from '#src/live.ts'
import { crewKeyOf } from '#src/messengers/discord/crews.ts'
import { defineAll } from '#src/messengers/discord/definitions.ts'
import { attachmentFetcher } from '#src/messengers/discord/files.ts'
import type { Discord } from '#src/messengers/discord/start.ts'
import { startSending } from '#src/reminders/send-loop.ts'
import { type CrewStore, crewStore } from '#src/store/crew-store.ts'
import { type Crew, findCrew } from '#src/store/crews.ts'
import { crewsOfPerson } from '#src/store/crews-of.ts'
import { readOnly } from '#src/store/transaction.ts'
import type { DiscordStandIn, StandInSettings } from '#tests/discord-loopback/index.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'
import type { Place } from '#tests/helpers/engines.ts'
import { startDiscord } from '#tests/helpers/start-discord.ts'
import { seedCrew } from './seed.ts'
import { startStage } from './stand-in.ts'

export interface LogLine {
  readonly level: string
  readonly message: string
  readonly about: Readonly<Record<string, unknown>>
}

/** A crew on the stand-in, with everything that the live bot has but the process. */
export interface OnDiscord {
  readonly platform: DiscordStandIn
  readonly bot: Bot
  readonly discord: Discord
  readonly lines: readonly LogLine[]
  /** Errors that the desk or the queue reported. */
  readonly errors: readonly unknown[]
  /** The bot leaves and comes back on the same store, as after an update. */
  restart(): Promise<void>
  /** Looks into the rows of a crew. */
  look<T>(see: (store: CrewStore, crew: Crew) => Promise<T>, guild?: string): Promise<T>
  /** Answers kept of a crew. */
  answers(guild?: string): Promise<number>
}

export interface CrewSettings {
  readonly world?: StandInSettings
  /** Without what a crew has built up: the first day. */
  readonly bare?: boolean
}

/** Starts the bot with all commands for one test; the day is a Monday in season. */
export async function startCrew(
  place: Place,
  { world = {}, bare = false }: CrewSettings = {},
): Promise<OnDiscord> {
  const { platform, folder } = await startStage(world)
  platform.clock.advance(NOON_MS - Date.now())
  const address = await place.address()
  const lines: LogLine[] = []
  const errors: unknown[] = []
  const nowMs = () => platform.clock.nowMs()
  const note = (level: string) => (about: object, message: string) => {
    lines.push({ level, message, about: { ...about } })
  }
  const open = () =>
    openBot({
      address,
      purpose: 'live',
      filesFolder: path.join(folder, 'files'),
      zone: 'America/Chicago',
      commands,
      fetchFile: attachmentFetcher([`127.0.0.1:${platform.port}`]),
      reportError: (error) => errors.push(error),
    })
  const start = (bot: Bot) =>
    startDiscord({
      token: platform.token,
      api: platform.api,
      desk: bot.desk,
      registry: bot.registry,
      define: () => defineAll(bot.registry, bot.words),
      words: bot.words,
      suggest: bot.suggest,
      crewsOf: (personKey) => crewsOfPerson(bot.database, personKey, 'discord:'),
      draw: bot.draw,
      log: { debug: note('debug'), info: note('info'), warn: note('warn'), error: note('error') },
      pausesMs: [5, 5, 5],
      nowMs,
      deliverQueue: (deliver) =>
        startSending(
          { database: bot.database, reportError: bot.reportError, answering: async () => bot },
          deliverWith(deliver),
          nowMs,
          40,
        ),
    })
  let bot = await open()
  if (!bare) await seedCrew(bot.database, platform)
  let discord = await start(bot)
  const leave = async () => {
    // Pictures on their way are waited for: one that came after the restart would overwrite what came since.
    await discord.stop(6000)
    await bot.close()
  }
  onTestFinished(leave)
  const look: OnDiscord['look'] = (see, guild) =>
    readOnly(bot.database, async (db) => {
      const crew = await findCrew(db, crewKeyOf(platform.world.guild(guild).id))
      if (crew === undefined) throw new Error('This crew has not spoken yet')
      return see(crewStore(db, crew.id), crew)
    })
  return {
    platform,
    lines,
    errors,
    get bot() {
      return bot
    },
    get discord() {
      return discord
    },
    async restart() {
      await leave()
      bot = await open()
      discord = await start(bot)
    },
    look,
    answers: (guild) => look(async (store) => (await store.turns.list({ limit: 1000 })).length, guild),
  }
}

/** Waits until what is expected holds. */
export const soon = (holds: () => void | Promise<void>) => vi.waitFor(holds, { timeout: 5000, interval: 20 })

/** Nothing went wrong unseen. */
export function expectQuiet({ lines, errors }: OnDiscord): void {
  expect(errors).toEqual([])
  expect(lines.filter(({ level }) => level === 'error')).toEqual([])
}
