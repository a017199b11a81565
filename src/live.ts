import { randomUUID } from 'node:crypto'
import type { Logger } from 'pino'
import type { ReportError } from './answering.ts'
import type { Command } from './desk/command.ts'
import { type Registry, registryOf } from './desk/registry.ts'
import { serveHealth } from './health.ts'
import { type Kept, keptBeside } from './kept.ts'
import { later } from './memory/later.ts'
import type { Definition } from './messengers/discord/definitions.ts'
import type { DeliverOnDiscord } from './messengers/discord/deliver.ts'
import { DeliveryFailed } from './messengers/discord/delivery-failed.ts'
import { attachmentFetcher } from './messengers/discord/files.ts'
import { endWithSignals } from './messengers/discord/signals.ts'
import { type Discord, startDiscord, TokenRefused } from './messengers/discord/start.ts'
import { openStore } from './open-store.ts'
import { type Deliver, Unreachable } from './reminders/deliver.ts'
import { ownPace } from './reminders/pace.ts'
import { startSending } from './reminders/send-loop.ts'
import { DEFAULT_ZONE, livePlaces, type Settings, SettingsError } from './settings.ts'
import { storeCondition } from './store/condition.ts'
import { crewsOfPerson } from './store/crews-of.ts'
import { keepKnowingTables } from './store/know-tables.ts'
import { servingOf } from './store/serving.ts'
import type { SqliteOptions } from './store/sqlite.ts'
import { turnstile } from './store/turnstile.ts'
import { startWatchdog, type WatchdogParts } from './watchdog.ts'
import type { Catalogue } from './words/catalogue.ts'

/** What a trial changes of the surroundings. No setting leads here: only an entry of its own passes it. */
export interface Trial {
  /** @default the machine's clock */
  readonly nowMs?: () => number
  readonly sqlite?: Pick<SqliteOptions, 'pauseMs' | 'opened'>
  /** How often to look for reminders that are due. */
  readonly lookEveryMs?: number
  /** Between two identifies of one kind. */
  readonly identifyGapMs?: number
  readonly watchdog?: Pick<WatchdogParts, 'everyMs' | 'stuckAfter' | 'unwellAfter'>
}

/** Runs on Discord until it is told to end, or the connection ends for good. */
export async function runLive(parts: {
  readonly settings: Settings
  readonly token: string
  readonly loadCommands: () => Promise<readonly Command[]>
  readonly log: Logger
  readonly reportError: ReportError
  readonly trial?: Trial
}): Promise<void> {
  const { settings, log, reportError, trial = {} } = parts
  const { nowMs = Date.now } = trial
  const { address, filesFolder } = livePlaces(settings)
  const kept = keptOfStart()
  const database = await openStore(
    address.engine === 'sqlite' ? { ...address, ...trial.sqlite } : address,
    'live',
  )
  const answering = later(async () => {
    const [{ openAnswering }, commands] = await Promise.all([import('./answering.ts'), parts.loadCommands()])
    return openAnswering({
      database,
      registry: registryOf(commands),
      filesFolder,
      zone: settings.zone ?? DEFAULT_ZONE,
      fetchFile: attachmentFetcher(settings.discordFileHosts),
      reportError,
    })
  })
  const define = async () => {
    const { registry, words } = await answering()
    return defineAndKeep(registry, words, kept)
  }
  const { shards } = settings
  const part = shards === null ? 'all' : `${shards.ids.join(',')}/${shards.count}`
  const serving = servingOf(database, part, randomUUID())
  let discord: Discord | null = null
  try {
    // Data that are not in order stop the start before anybody hears of it.
    const definitions = kept.found?.definitions ?? (await define())
    discord = await startDiscord({
      token: parts.token,
      ...(settings.discordApi === null ? {} : { api: settings.discordApi }),
      answering,
      define: () => definitions,
      crewsOf: (personKey) => crewsOfPerson(database, personKey, 'discord:'),
      log,
      nowMs,
      hasSuccessor: serving.hasSuccessor,
      ...(shards === null ? {} : { shards }),
      ...(address.engine === 'sqlite'
        ? {}
        : { identifyTurn: turnstile(database, 'identify', trial.identifyGapMs) }),
      deliverQueue: (deliver) =>
        startSending(
          { database, answering, reportError },
          deliverWith(deliver),
          nowMs,
          trial.lookEveryMs,
          ownPace(shards),
        ),
    })
    const running = discord
    const health =
      settings.health === null
        ? null
        : await serveHealth({
            ...settings.health,
            gateway: () => running.health(),
            store: () => storeCondition(database, nowMs()),
          })
    // Nobody is asked to end because of it: whoever leaves later knows that it can do so silently.
    await serving.begin().catch((error: unknown) => reportError(error, { about: 'saying who serves' }))
    log.info('ready')
    const stopKnowing = keepKnowingTables(database, reportError)
    const leave = endWithSignals(running, log, async () => {
      health?.close()
      await watchdog.stop()
      await stopKnowing()
      await database.close()
    })
    const watchdog = startWatchdog({
      ...trial.watchdog,
      isWell: () => running.health().ok,
      onUnwell: () => void leave('the gateway is stuck', 1),
    })
  } catch (error) {
    await discord?.stop()
    await database.close()
    if (error instanceof TokenRefused)
      throw new SettingsError('DISCORD_TOKEN: Discord refuses it. Copy it again from the developer portal.')
    throw error
  }
}

/** What a start needs of commands and data where another one has looked through all of them. */
export interface KeptOfStart {
  /** Commands as Discord knows them. */
  readonly definitions: readonly Definition[]
}

export const keptOfStart = (): Kept<KeptOfStart> => keptBeside(import.meta.dirname, 'start')

/** @throws RegistrationError, OptionError */
export async function defineAndKeep(
  registry: Registry,
  words: Catalogue,
  kept: Kept<KeptOfStart>,
): Promise<readonly Definition[]> {
  const { defineAll } = await import('./messengers/discord/definitions.ts')
  const definitions = defineAll(registry, words)
  kept.keep({ definitions })
  return definitions
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
