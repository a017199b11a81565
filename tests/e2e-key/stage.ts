import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { onTestFinished } from 'vitest'
import { commands } from '#commands/index.ts'
import { type Bot, openBot } from '#src/bot.ts'
import { deliverWith } from '#src/live.ts'
import { crewKeyOf } from '#src/messengers/discord/crews.ts'
import { attachmentFetcher } from '#src/messengers/discord/files.ts'
import { type Discord, startDiscord } from '#src/messengers/discord/start.ts'
import { startSending } from '#src/reminders/send-loop.ts'
import { type CrewStore, crewStore } from '#src/store/crew-store.ts'
import { findCrew, findOrCreateCrew } from '#src/store/crews.ts'
import { crewsOfPerson } from '#src/store/crews-of.ts'
import type { DatabaseAddress } from '#src/store/open.ts'
import { AreaDetails, SiteDetails } from '#src/store/sites.ts'
import { write } from '#src/store/transaction.ts'
import { type DiscordStandIn, startDiscord as startStandIn } from '#tests/discord-loopback/index.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'

const ZONE = 'America/Chicago'
export const SITE = 'Invented Row 5'

export interface Stage {
  readonly platform: DiscordStandIn
  readonly errors: readonly unknown[]
  /** The bot leaves and comes back on the same store, as after an update. */
  restart(): Promise<void>
  store<T>(work: (store: CrewStore) => Promise<T>): Promise<T>
}

/** The real bot on the stand-in, with a crew whose only lawn is centipedegrass. */
export async function startStage(): Promise<Stage> {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-key-'))
  const platform = await startStandIn({ identifyIntervalMs: 0 })
  platform.clock.advance(NOON_MS - Date.now())
  const address: DatabaseAddress = { engine: 'sqlite', path: path.join(folder, 'crew.sqlite') }
  const errors: unknown[] = []
  const open = () =>
    openBot({
      address,
      purpose: 'live',
      filesFolder: path.join(folder, 'files'),
      zone: ZONE,
      commands,
      fetchFile: attachmentFetcher([`127.0.0.1:${platform.port}`]),
      reportError: (error) => errors.push(error),
    })
  let bot = await open()
  await seed(bot, platform)
  let discord = await connect(bot, platform, errors)
  const leave = async () => {
    await discord.stop(2000)
    await bot.close()
  }
  onTestFinished(async () => {
    await leave()
    await platform.stop()
    rmSync(folder, { recursive: true, force: true })
  })
  return {
    platform,
    errors,
    async restart() {
      await leave()
      bot = await open()
      discord = await connect(bot, platform, errors)
    },
    store: (work) =>
      write(bot.database, async (db) => {
        const crew = await findCrew(db, crewKeyOf(platform.world.guild(undefined).id))
        if (crew === undefined) throw new Error('The crew is gone')
        return work(crewStore(db, crew.id))
      }),
  }
}

function connect(bot: Bot, platform: DiscordStandIn, errors: unknown[]): Promise<Discord> {
  const nowMs = () => platform.clock.nowMs()
  const quiet = () => {}
  return startDiscord({
    token: platform.token,
    api: platform.api,
    desk: bot.desk,
    registry: bot.registry,
    words: bot.words,
    suggest: bot.suggest,
    crewsOf: (personKey) => crewsOfPerson(bot.database, personKey, 'discord:'),
    draw: bot.draw,
    log: {
      debug: quiet,
      info: quiet,
      warn: quiet,
      error: (about, message) => errors.push({ about, message }),
    },
    pausesMs: [5, 5, 5],
    nowMs,
    deliverQueue: (deliver) => startSending(bot, deliverWith(deliver), nowMs, 40),
  })
}

async function seed(bot: Bot, platform: DiscordStandIn): Promise<void> {
  const atMs = platform.clock.nowMs()
  const guild = platform.world.guild(undefined)
  await write(bot.database, async (db) => {
    const crew = await findOrCreateCrew(db, {
      key: crewKeyOf(guild.id),
      name: guild.name,
      language: 'en',
      zone: ZONE,
      atMs,
    })
    const { sites } = crewStore(db, crew.id)
    const siteId = await sites.create(
      { name: SITE, address: '5 Invented Row, Noplace NC 27000', details: SiteDetails.parse({}) },
      atMs,
    )
    const details = AreaDetails.parse({ turfs: ['centipede'] })
    await sites.createArea({ siteId, name: 'front', squareFeet: '6000', details }, atMs)
  })
}
