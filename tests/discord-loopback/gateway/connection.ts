import { GatewayCloseCodes, GatewayOpcodes } from 'discord-api-types/v10'
import type { WebSocket } from 'ws'
import { isObject } from '../rules/check.ts'
import type { Session } from './session.ts'

/** Longest frame of a client, bytes, and most frames a minute. Source: Discord developer docs, events/gateway. */
const FRAME_BYTES = 4096
const FRAMES_PER_MINUTE = 120
const MINUTE_MS = 60_000

/** What a connection needs from the gateway. */
export interface ConnectionOwner {
  heartbeatIntervalMs: number
  identify(connection: Connection, d: unknown): void
  resume(connection: Connection, d: unknown): void
  closed(connection: Connection, code: number): void
}

/** One socket: greets, answers heartbeats, hands identify and resume on. */
export class Connection {
  readonly socket: WebSocket
  readonly #owner: ConnectionOwner
  readonly #framesAtMs: number[] = []
  #beatCheck: NodeJS.Timeout
  #lastBeatAtMs = Date.now()
  #silent = false
  session: Session | undefined
  /** Off: heartbeats stay unanswered, as on a half-dead link. */
  acks = true

  constructor(socket: WebSocket, owner: ConnectionOwner) {
    this.socket = socket
    this.#owner = owner
    socket.on('message', (data) => this.#receive(String(data)))
    socket.on('close', (code) => {
      clearInterval(this.#beatCheck)
      owner.closed(this, code)
    })
    socket.on('error', () => socket.terminate())
    this.#beatCheck = setInterval(() => this.#checkBeat(), owner.heartbeatIntervalMs)
    this.#beatCheck.unref()
    this.send({ op: GatewayOpcodes.Hello, d: { heartbeat_interval: owner.heartbeatIntervalMs } })
  }

  /** Falls silent for good, as the far end of a half-open link does: reads nothing, sends nothing. */
  silence(): void {
    clearInterval(this.#beatCheck)
    this.#silent = true
    this.socket.pause()
  }

  send(frame: unknown): void {
    if (!this.#silent && this.socket.readyState === this.socket.OPEN) this.socket.send(JSON.stringify(frame))
  }

  close(code: GatewayCloseCodes | number): void {
    this.socket.close(code)
  }

  #checkBeat(): void {
    if (Date.now() - this.#lastBeatAtMs > 2 * this.#owner.heartbeatIntervalMs)
      this.close(GatewayCloseCodes.SessionTimedOut)
  }

  #tooMany(): boolean {
    const now = Date.now()
    this.#framesAtMs.push(now)
    while ((this.#framesAtMs[0] ?? now) <= now - MINUTE_MS) this.#framesAtMs.shift()
    return this.#framesAtMs.length > FRAMES_PER_MINUTE
  }

  #receive(text: string) {
    if (Buffer.byteLength(text) > FRAME_BYTES) return this.close(GatewayCloseCodes.DecodeError)
    if (this.#tooMany()) return this.close(GatewayCloseCodes.RateLimited)
    let frame: unknown
    try {
      frame = JSON.parse(text)
    } catch {
      return this.close(GatewayCloseCodes.DecodeError)
    }
    if (!isObject(frame)) return this.close(GatewayCloseCodes.DecodeError)
    this.#obey(Number(frame.op), frame.d)
  }

  #obey(op: number, d: unknown) {
    switch (op) {
      case GatewayOpcodes.Heartbeat:
        this.#lastBeatAtMs = Date.now()
        if (this.acks) this.send({ op: GatewayOpcodes.HeartbeatAck })
        return
      case GatewayOpcodes.Identify:
        if (this.session !== undefined) return this.close(GatewayCloseCodes.AlreadyAuthenticated)
        return this.#owner.identify(this, d)
      case GatewayOpcodes.Resume:
        if (this.session !== undefined) return this.close(GatewayCloseCodes.AlreadyAuthenticated)
        return this.#owner.resume(this, d)
      case GatewayOpcodes.PresenceUpdate:
      case GatewayOpcodes.VoiceStateUpdate:
      case GatewayOpcodes.RequestGuildMembers:
      case GatewayOpcodes.RequestSoundboardSounds:
        if (this.session === undefined) this.close(GatewayCloseCodes.NotAuthenticated)
        return
      default:
        this.close(GatewayCloseCodes.UnknownOpcode)
    }
  }
}
