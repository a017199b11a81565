import { type GatewayDispatchEvents, GatewayIntentBits, GatewayOpcodes } from 'discord-api-types/v10'
import { shardOf } from '../snowflake.ts'
import type { Connection } from './connection.ts'

export interface DispatchFrame {
  op: GatewayOpcodes.Dispatch
  t: GatewayDispatchEvents | 'RESUMED'
  s: number
  d: unknown
}

/** How many dispatches are kept for a replay. */
const RING_SIZE = 1000

/** What one identify began: it outlives its socket and can be resumed. */
export class Session {
  readonly id: string
  readonly shard: readonly [id: number, count: number]
  readonly intents: number
  readonly ring: DispatchFrame[] = []
  connection: Connection | undefined
  seq = 0
  /** Since when it has no socket, by the stand-in's clock, ms. */
  lostAtMs: number | undefined

  constructor(id: string, shard: readonly [number, number], intents: number) {
    this.id = id
    this.shard = shard
    this.intents = intents
  }

  hears(guildId: string | undefined): boolean {
    return shardOf(guildId, this.shard[1]) === this.shard[0]
  }

  get wantsGuilds(): boolean {
    return (this.intents & GatewayIntentBits.Guilds) !== 0
  }

  /** Numbers the event, keeps it, and sends it if there is a socket. */
  dispatch(t: DispatchFrame['t'], d: unknown): DispatchFrame {
    this.seq += 1
    const frame: DispatchFrame = { op: GatewayOpcodes.Dispatch, t, s: this.seq, d }
    this.ring.push(frame)
    if (this.ring.length > RING_SIZE) this.ring.shift()
    this.connection?.send(frame)
    return frame
  }

  /** Whether everything after `seq` is still at hand. */
  canReplay(seq: number): boolean {
    const oldest = this.ring[0]?.s ?? this.seq + 1
    return seq >= oldest - 1
  }

  /** Sends again what came after `seq`, in order, under the old numbers. */
  replay(seq: number): void {
    for (const frame of this.ring) if (frame.s > seq) this.connection?.send(frame)
  }
}
