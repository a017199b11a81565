import {
  Client,
  type ClientOptions,
  Events,
  GatewayDispatchEvents,
  Options,
  type RateLimitData,
} from 'discord.js'
import type { Log } from './log.ts'
import { describeError } from './platform-error.ts'

/** Resolves when a shard with this key may identify. */
export type IdentifyTurn = (key: number, signal: AbortSignal) => Promise<void>

type BuildIdentifyThrottler = NonNullable<NonNullable<ClientOptions['ws']>['buildIdentifyThrottler']>

/** Why the connection ended for good. */
export type Ended = 'token-refused' | 'gateway-closed'

export interface ClientParts {
  /** Base address of the API; the platform's own by default. */
  readonly api?: string
  /** Which shards are connected here, of how many; as many as the platform advises by default. */
  readonly shards?: { readonly ids: readonly number[]; readonly count: number }
  /** Waits until a shard may identify, beside those of other processes. */
  readonly identifyTurn?: IdentifyTurn
  readonly log: Log
  readonly onInteraction: (raw: unknown) => void
  readonly onEnded: (why: Ended, about: object) => void
}

/** A sleep longer than this makes a first response useless, and anything else late enough to be told of. */
const LONGEST_SLEEP_MS = { callback: 2000, other: 30_000 } as const

/**
 * The client as a bot of commands needs it: no intents, nothing cached, nobody mentioned. Interactions are taken as
 * the gateway sends them: without the intent for servers the client's own objects know no roles, and they come only
 * after it is ready and fail on a field that is missing.
 */
export function buildClient(parts: ClientParts): Client {
  const { api, shards, identifyTurn, log, onInteraction, onEnded } = parts
  const client = new Client({
    intents: [],
    ...(shards === undefined ? { shards: 'auto' } : { shards: [...shards.ids], shardCount: shards.count }),
    ...(identifyTurn === undefined ? {} : { ws: { buildIdentifyThrottler: throttlerOf(identifyTurn, log) } }),
    waitGuildTimeout: 0,
    allowedMentions: { parse: [] },
    makeCache: Options.cacheWithLimits(NOTHING),
    rest: {
      ...(api === undefined ? {} : { api }),
      invalidRequestWarningInterval: 100,
      rejectOnRateLimit: isTooLong,
    },
  })
  client.ws.on(GatewayDispatchEvents.InteractionCreate, (raw: unknown) => onInteraction(raw))
  watchGateway(client, log, onEnded)
  watchRest(client, log, onEnded)
  return client
}

/**
 * The client counts its own identifies alone; of all processes together one may identify at a time, for each remainder
 * of the shard's number by `max_concurrency`.
 */
function throttlerOf(turn: IdentifyTurn, log: Log): BuildIdentifyThrottler {
  return async (manager) => {
    const { session_start_limit: limit } = await manager.fetchGatewayInformation()
    return {
      async waitForIdentify(shardId, signal) {
        try {
          await turn(shardId % limit.max_concurrency, signal)
        } catch (error) {
          signal.throwIfAborted()
          // Too early only costs a try: the platform says so, and the client comes again.
          log.warn({ shard: shardId, error: describeError(error) }, 'cannot see whose turn it is to identify')
        }
      },
    }
  }
}

/** Managers that may be empty; those of servers, channels and roles may not be limited. */
const NOTHING = {
  ApplicationCommandManager: 0,
  ApplicationEmojiManager: 0,
  AutoModerationRuleManager: 0,
  DMMessageManager: 0,
  EntitlementManager: 0,
  GuildBanManager: 0,
  GuildEmojiManager: 0,
  GuildForumThreadManager: 0,
  GuildInviteManager: 0,
  GuildMemberManager: 0,
  GuildMessageManager: 0,
  GuildScheduledEventManager: 0,
  GuildStickerManager: 0,
  GuildTextThreadManager: 0,
  MessageManager: 0,
  PresenceManager: 0,
  ReactionManager: 0,
  ReactionUserManager: 0,
  StageInstanceManager: 0,
  ThreadManager: 0,
  ThreadMemberManager: 0,
  UserManager: 0,
  VoiceStateManager: 0,
} as const

function isTooLong({ route, retryAfter }: RateLimitData): boolean {
  return retryAfter > (route.startsWith('/interactions') ? LONGEST_SLEEP_MS.callback : LONGEST_SLEEP_MS.other)
}

function watchGateway(client: Client, log: Log, onEnded: ClientParts['onEnded']): void {
  client.on(Events.Error, (error) => log.error({ error: describeError(error) }, 'the client met an error'))
  client.on(Events.Warn, (warning) => log.warn({ warning }, 'the client warns'))
  client.on(Events.ShardError, (error, shard) =>
    log.warn({ shard, error: describeError(error) }, 'a shard met an error'),
  )
  client.on(Events.ShardReady, (shard) => log.info({ shard }, 'a shard is ready'))
  client.on(Events.ShardResume, (shard, replayed) => log.info({ shard, replayed }, 'a shard has resumed'))
  client.on(Events.ShardReconnecting, (shard) => log.info({ shard }, 'a shard connects again'))
  // Comes only for codes after which the client never tries again, and stays alive doing nothing.
  client.on(Events.ShardDisconnect, ({ code }, shard) => onEnded('gateway-closed', { code, shard }))
  client.on(Events.Invalidated, () => onEnded('gateway-closed', { code: 'invalidated' }))
}

/** Calls with an interaction's own token may be refused without the bot's token being at fault. */
const OWN_TOKEN = /^\/(webhooks|interactions)\//
const UNAUTHORIZED = 401

function watchRest(client: Client, log: Log, onEnded: ClientParts['onEnded']): void {
  client.rest.on('response', ({ route, method }, { status }) => {
    if (status === UNAUTHORIZED && !OWN_TOKEN.test(route)) onEnded('token-refused', { route, method })
  })
  client.rest.on('rateLimited', ({ route, retryAfter, global, scope }) =>
    log.warn({ route, retryAfterMs: retryAfter, global, scope }, 'the platform asks for patience'),
  )
  client.rest.on('invalidRequestWarning', ({ count, remainingTime }) =>
    log.error({ count, remainingMs: remainingTime }, 'many refused requests'),
  )
}
