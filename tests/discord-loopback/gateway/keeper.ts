import { randomBytes } from 'node:crypto'
import type { IncomingMessage } from 'node:http'
import type { Duplex } from 'node:stream'
import {
  GatewayCloseCodes,
  GatewayDispatchEvents,
  GatewayOpcodes,
  type GatewayReadyDispatchData,
} from 'discord-api-types/v10'
import { WebSocketServer } from 'ws'
import type { Platform } from '../platform.ts'
import { isObject } from '../rules/check.ts'
import { guildCreateObject, userObject } from '../world/objects.ts'
import type { WorldGuild } from '../world/world.ts'
import { Connection, type ConnectionOwner } from './connection.ts'
import { type Identity, judgeIdentify } from './identify.ts'
import { Session } from './session.ts'
import { type GatewaySettings, withDefaults } from './settings.ts'

/** Session starts a day. Source: Discord developer docs, events/gateway, "Session Start Limit". */
const STARTS_PER_DAY = 1000

/** Closing with these ends the session (same page). */
const ENDS_SESSION = [1000, 1001]

/** Sockets and sessions of one bot: who may start, who may resume, who hears what. */
export class SessionKeeper implements ConnectionOwner {
  readonly settings: GatewaySettings
  readonly #platform: Platform
  readonly #sockets = new WebSocketServer({ noServer: true })
  protected readonly connections = new Set<Connection>()
  readonly #identifiedAtMs = new Map<number, number>()
  readonly sessions = new Map<string, Session>()
  #startsLeft = STARTS_PER_DAY
  protected refuseStatus: number | undefined
  protected acks = true
  url = ''

  constructor(platform: Platform, settings: Partial<GatewaySettings>) {
    this.#platform = platform
    this.settings = withDefaults(settings)
  }

  get heartbeatIntervalMs(): number {
    return this.settings.heartbeatIntervalMs
  }

  sessionStartLimit() {
    const { maxConcurrency } = this.settings
    return {
      total: STARTS_PER_DAY,
      remaining: this.#startsLeft,
      reset_after: 86_400_000,
      max_concurrency: maxConcurrency,
    }
  }

  upgrade(message: IncomingMessage, socket: Duplex, head: Buffer): void {
    if (this.refuseStatus !== undefined) {
      socket.end(`HTTP/1.1 ${this.refuseStatus} Refused\r\nConnection: close\r\n\r\n`)
      return
    }
    const query = new URL(message.url ?? '/', 'ws://127.0.0.1').searchParams
    this.#sockets.handleUpgrade(message, socket, head, (ws) => {
      this.#platform.ledger.counts.connections += 1
      if (query.get('v') !== '10' || query.get('encoding') !== 'json')
        return ws.close(GatewayCloseCodes.InvalidAPIVersion)
      const connection = new Connection(ws, this)
      connection.acks = this.acks
      this.connections.add(connection)
    })
  }

  identify(connection: Connection, d: unknown) {
    const { token, ledger } = this.#platform
    ledger.counts.identifies += 1
    const verdict = judgeIdentify(d, { token, ...this.settings })
    if (!verdict.ok) return connection.close(verdict.close)
    if (this.#startsLeft === 0) return connection.close(GatewayCloseCodes.AuthenticationFailed)
    if (this.#tooSoon(verdict.identity)) return this.#invalidate(connection)
    this.#startsLeft -= 1
    const session = new Session(
      randomBytes(16).toString('hex'),
      verdict.identity.shard,
      verdict.identity.intents,
    )
    this.sessions.set(session.id, session)
    this.#join(connection, session)
    if (this.settings.readyDelayMs === 0) this.#greet(session)
    else setTimeout(() => this.#greet(session), this.settings.readyDelayMs).unref()
  }

  /** One identify per `identifyIntervalMs` and concurrency key (shard modulo max_concurrency). */
  #tooSoon({ shard }: Identity): boolean {
    const key = shard[0] % this.settings.maxConcurrency
    const before = this.#identifiedAtMs.get(key)
    const now = Date.now()
    const soon = before !== undefined && now - before < this.settings.identifyIntervalMs
    if (!soon) this.#identifiedAtMs.set(key, now)
    return soon
  }

  #invalidate(connection: Connection): void {
    this.#platform.ledger.counts.invalidSessions += 1
    connection.send({ op: GatewayOpcodes.InvalidSession, d: false })
  }

  #join(connection: Connection, session: Session): void {
    connection.session = session
    session.connection = connection
    session.lostAtMs = undefined
  }

  #greet(session: Session): void {
    const { world } = this.#platform
    const guilds = this.#guildsOf(session)
    session.dispatch(GatewayDispatchEvents.Ready, {
      v: 10,
      user: userObject(world.bot),
      guilds: guilds.map(({ id }) => ({ id, unavailable: true })),
      session_id: session.id,
      resume_gateway_url: this.url,
      shard: [session.shard[0], session.shard[1]],
      application: { id: world.applicationId, flags: 0 as never, flags_new: '0' },
    } satisfies GatewayReadyDispatchData)
    if (!session.wantsGuilds) return
    for (const guild of guilds) if (!guild.outage) this.sendGuild(session, guild)
  }

  #guildsOf(session: Session): WorldGuild[] {
    return [...this.#platform.world.guilds.values()].filter(
      (g) => g.install === 'guild' && session.hears(g.id),
    )
  }

  protected sendGuild(session: Session, guild: WorldGuild): void {
    session.dispatch(GatewayDispatchEvents.GuildCreate, guildCreateObject(guild, this.#platform.world.bot))
  }

  resume(connection: Connection, d: unknown) {
    this.#platform.ledger.counts.resumes += 1
    const asked = isObject(d) ? d : {}
    if (asked.token !== this.#platform.token) return connection.close(GatewayCloseCodes.AuthenticationFailed)
    const session = this.sessions.get(String(asked.session_id))
    const seq = Number(asked.seq)
    if (session === undefined || this.#isOver(session)) return this.#invalidate(connection)
    if (!Number.isInteger(seq) || seq > session.seq) return connection.close(GatewayCloseCodes.InvalidSeq)
    if (!session.canReplay(seq)) return this.#invalidate(connection)
    session.connection?.socket.terminate()
    this.#join(connection, session)
    session.replay(seq)
    session.dispatch(GatewayDispatchEvents.Resumed, { _trace: [] })
  }

  #isOver({ lostAtMs }: Session): boolean {
    return lostAtMs !== undefined && this.#platform.clock.nowMs() - lostAtMs > this.settings.sessionLifeMs
  }

  closed(connection: Connection, code: number): void {
    this.connections.delete(connection)
    const { session } = connection
    if (session === undefined || session.connection !== connection) return
    session.connection = undefined
    session.lostAtMs = this.#platform.clock.nowMs()
    if (ENDS_SESSION.includes(code)) this.sessions.delete(session.id)
  }

  /** Sends an event to every session of the guild's shard; how many live sockets it reached at once. */
  dispatch(t: GatewayDispatchEvents, d: unknown, guildId: string | undefined): number {
    const hearing = [...this.sessions.values()].filter(
      (session) => session.seq > 0 && session.hears(guildId) && !this.#isOver(session),
    )
    for (const session of hearing) session.dispatch(t, d)
    return hearing.filter((session) => session.connection !== undefined).length
  }
}
