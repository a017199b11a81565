import { createServer, type Server } from 'node:http'
import type { Logger } from 'pino'
import { openBot, type ReportError } from './bot.ts'
import type { Command } from './desk/command.ts'
import { type DeliverOnDiscord, DeliveryFailed } from './messengers/discord/deliver.ts'
import { attachmentFetcher } from './messengers/discord/files.ts'
import { endWithSignals } from './messengers/discord/signals.ts'
import { type Discord, startDiscord, TokenRefused } from './messengers/discord/start.ts'
import { type Deliver, Unreachable } from './reminders/send-due.ts'
import { startSending } from './reminders/send-loop.ts'
import { DEFAULT_ZONE, livePlaces, type Settings, SettingsError } from './settings.ts'
import { crewsOfPerson } from './store/crews-of.ts'

/** Runs on Discord until it is told to end, or the connection ends for good. */
export async function runLive(parts: {
  readonly settings: Settings
  readonly token: string
  readonly commands: readonly Command[]
  readonly log: Logger
  readonly reportError: ReportError
}): Promise<void> {
  const { settings, log } = parts
  const { address, filesFolder } = livePlaces(settings)
  const bot = await openBot({
    address,
    purpose: 'live',
    filesFolder,
    zone: settings.zone ?? DEFAULT_ZONE,
    commands: parts.commands,
    fetchFile: attachmentFetcher(settings.discordFileHosts),
    reportError: parts.reportError,
  })
  let discord: Discord | null = null
  try {
    discord = await startDiscord({
      token: parts.token,
      ...(settings.discordApi === null ? {} : { api: settings.discordApi }),
      desk: bot.desk,
      registry: bot.registry,
      words: bot.words,
      suggest: bot.suggest,
      crewsOf: (personKey) => crewsOfPerson(bot.database, personKey, 'discord:'),
      draw: bot.draw,
      log,
      deliverQueue: (deliver) => startSending(bot, deliverWith(deliver)),
    })
    const health = settings.healthPort === null ? null : await serveHealth(discord, settings.healthPort)
    log.info({ commands: bot.registry.size }, 'ready')
    endWithSignals(discord, log, async () => {
      health?.close()
      await bot.close()
    })
  } catch (error) {
    await discord?.stop()
    await bot.close()
    if (error instanceof TokenRefused)
      throw new SettingsError('DISCORD_TOKEN: Discord refuses it. Copy it again from the developer portal.')
    throw error
  }
}

/** The messenger's door as the queue knows it: what cannot arrive today is put off, the rest is tried again soon. */
export function deliverWith(deliver: DeliverOnDiscord): Deliver {
  return async (address, answered, nonce) => {
    try {
      await deliver(address, answered, nonce)
    } catch (error) {
      if (error instanceof DeliveryFailed && !error.again && error.trouble !== 'token-refused')
        throw new Unreachable('Cannot reach a person', { cause: error })
      throw error
    }
  }
}

/** One page, on loopback only: 200 while every shard is well, else 503. */
function serveHealth(discord: Discord, port: number): Promise<Server> {
  const server = createServer((request, response) => {
    if (request.url !== '/health') {
      response.writeHead(404).end()
      return
    }
    const health = discord.health()
    response
      .writeHead(health.ok ? 200 : 503, { 'content-type': 'application/json' })
      .end(JSON.stringify(health))
  })
  return new Promise((done, fail) => {
    server.once('error', (error: NodeJS.ErrnoException) =>
      fail(
        error.code === 'EADDRINUSE'
          ? new SettingsError(`PORT: ${port} is taken. Choose another for the health page.`)
          : error,
      ),
    )
    server.listen(port, '127.0.0.1', () => done(server))
  })
}
