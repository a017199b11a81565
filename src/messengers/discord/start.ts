import { setTimeout as wait } from 'node:timers/promises'
import { type Client, Events } from 'discord.js'
import { later } from '#src/memory/later.ts'
import { buildClient, type ClientParts, type Ended } from './client.ts'
import type { CrewsOf } from './crews.ts'
import type { Definition } from './definitions.ts'
import type { DeliverOnDiscord } from './deliver.ts'
import { guardProcess } from './guard.ts'
import { type Health, healthOf } from './health.ts'
import { laterHandler } from './later-handler.ts'
import type { Log } from './log.ts'
import { describeError } from './platform-error.ts'
import { registerCommands } from './register.ts'
import type { Rim } from './rim.ts'

export type Answering = Pick<Rim, 'desk' | 'registry' | 'words' | 'suggest' | 'draw'>

export interface DiscordOptions extends Pick<ClientParts, 'shards' | 'identifyTurn'> {
  readonly token: string
  /** Base address of the API; the platform's own by default. */
  readonly api?: string
  /** What answers, brought when the first interaction or message comes. */
  readonly answering: () => Promise<Answering>
  /** All commands as the platform knows them. */
  readonly define: () => readonly Definition[] | Promise<readonly Definition[]>
  readonly crewsOf: CrewsOf
  readonly log: Log
  /** Begins sending what is due, once the client is ready; gives back what ends it. */
  readonly deliverQueue?: (deliver: DeliverOnDiscord) => () => void | Promise<void>
  /** Waits between attempts of a delivery. */
  readonly pausesMs?: readonly number[]
  /** Whether another process answers the same shards by now. @default nobody does */
  readonly hasSuccessor?: () => Promise<boolean>
  /** @default the real clock */
  readonly nowMs?: () => number
}

export interface Discord {
  readonly client: Client
  readonly deliver: DeliverOnDiscord
  health(): Health
  /** Resolves when the connection has ended for good; the process should then end with an error. */
  readonly ended: Promise<Ended>
  /** Finishes what is in flight, then leaves; takes at most `boundMs`. */
  stop(boundMs?: number): Promise<void>
}

/** The platform does not know the token: another start with it changes nothing. */
export class TokenRefused extends Error {
  override readonly name = 'TokenRefused'
}

const READY_WITHIN_MS = 30_000
const STOP_WITHIN_MS = 8000
/** The client's own farewell may never come back while it is connecting. */
const FAREWELL_MS = 1500

/**
 * Logs in, registers the commands if they have changed, and answers from then on.
 * @throws TokenRefused, RegistrationError, OptionError, or what the network says
 */
export async function startDiscord(options: DiscordOptions): Promise<Discord> {
  const { log } = options
  const nowMs = options.nowMs ?? Date.now
  const ending = deferred<Ended>()
  let ended: string | null = null
  const client = buildClient({
    log,
    ...(options.api === undefined ? {} : { api: options.api }),
    ...(options.shards === undefined ? {} : { shards: options.shards }),
    ...(options.identifyTurn === undefined ? {} : { identifyTurn: options.identifyTurn }),
    onInteraction: (raw) => handler.take(raw),
    onEnded(why, about) {
      ended ??= why
      log.error({ why, ...about }, 'the connection has ended for good')
      ending.resolve(why)
    },
  })
  const { rest } = client
  const bring = later(async () => {
    const [{ answerOn }, answering] = await Promise.all([import('./answer-on.ts'), options.answering()])
    const { crewsOf, pausesMs } = options
    return answerOn({
      ...answering,
      rest,
      log,
      nowMs,
      crewsOf,
      ...(pausesMs === undefined ? {} : { pausesMs }),
    })
  })
  const handler = laterHandler(async () => (await bring()).handler, log)
  const deliver: DeliverOnDiscord = async (...message) => (await bring()).deliver(...message)
  const unguard = guardProcess(log)
  try {
    // The commands are put into words while the platform answers.
    const defined = wait(0).then(options.define)
    const [wanted] = await Promise.all([defined, logIn(client, options.token)])
    await registerCommands({ rest, log, wanted, applicationId: applicationOf(client) })
  } catch (error) {
    await leave(client)
    unguard()
    throw error
  }
  const endQueue = options.deliverQueue?.(deliver)
  const look = healthOf(client, nowMs)
  return {
    client,
    deliver,
    ended: ending.promise,
    health: () => look(ended),
    async stop(boundMs = STOP_WITHIN_MS) {
      // Both would answer, and "nothing was written" would be said of what the other one writes.
      const isSucceeded = (await options.hasSuccessor?.().catch(() => false)) ?? false
      const newcomers = isSucceeded ? 'leave-to-other' : 'turn-away'
      const drained = handler.drain(newcomers)
      log.info({ newcomers, inFlight: handler.inFlight }, 'the door is shut')
      await atMost(boundMs - FAREWELL_MS, Promise.all([drained, endQueue?.()]))
      if (handler.inFlight > 0) log.warn({ inFlight: handler.inFlight }, 'leaving with requests unanswered')
      await leave(client)
      unguard()
    },
  }
}

/** Logged in, and every shard ready. */
async function logIn(client: Client, token: string): Promise<void> {
  const ready = new Promise<void>((done) => client.once(Events.ClientReady, () => done()))
  try {
    await client.login(token)
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'TokenInvalid')
      throw new TokenRefused('Cannot log in to Discord: it refuses the token', { cause: error })
    throw error
  }
  if (!(await atMost(READY_WITHIN_MS, ready)))
    throw new Error(`Cannot log in to Discord: not ready after ${READY_WITHIN_MS / 1000} s`)
}

function applicationOf(client: Client): string {
  const id = client.application?.id
  if (id === undefined) throw new Error('Cannot register commands: the platform did not name the application')
  return id
}

async function leave(client: Client): Promise<void> {
  // The client notes where its farewell was called, for a log that nobody keeps; naming the place reads large maps.
  const limit = Error.stackTraceLimit
  Error.stackTraceLimit = 0
  const left = client.destroy().catch((error: unknown) => describeError(error))
  Error.stackTraceLimit = limit
  await atMost(FAREWELL_MS, left)
}

function deferred<T>(): { readonly promise: Promise<T>; readonly resolve: (value: T) => void } {
  let resolve: (value: T) => void = () => {}
  const promise = new Promise<T>((done) => {
    resolve = done
  })
  return { promise, resolve }
}

/** Whether it was done in time. */
async function atMost(ms: number, work: Promise<unknown>): Promise<boolean> {
  const enough = new AbortController()
  const late = wait(Math.max(ms, 0), false, { signal: enough.signal }).catch(() => false)
  try {
    return await Promise.race([work.then(() => true), late])
  } finally {
    enough.abort()
  }
}
