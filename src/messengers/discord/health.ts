import { type Client, Status } from 'discord.js'

export interface ShardHealth {
  readonly id: number
  readonly status: string
  readonly isReady: boolean
  /** Since when it is not ready; null while it is. */
  readonly awaySinceMs: number | null
  /** Last heartbeat that was acknowledged; null before the first. */
  readonly heardAtMs: number | null
  readonly pingMs: number | null
}

export interface Health {
  /** Every shard is ready, or has been away for a short time only. */
  readonly ok: boolean
  readonly shards: readonly ShardHealth[]
  /** Why it will not come back by itself; null while it may. */
  readonly ended: string | null
}

/** A shard may be away this long (a resume takes half a second, a new session about six). */
const AWAY_MS = 60_000
/** Three beats of the usual 41 s: after that a line that looks open is not. */
const SILENT_MS = 130_000

/** Follows every shard. The client's own word for "ready" stays true through outages and after the end. */
export function healthOf(client: Client, nowMs: () => number): (ended: string | null) => Health {
  const awaySince = new Map<number, number>()
  return (ended) => {
    const now = nowMs()
    const shards = [...client.ws.shards.values()].map((shard): ShardHealth => {
      const isReady = shard.status === Status.Ready
      if (isReady) awaySince.delete(shard.id)
      else if (!awaySince.has(shard.id)) awaySince.set(shard.id, now)
      return {
        id: shard.id,
        status: Status[shard.status] ?? String(shard.status),
        isReady,
        awaySinceMs: awaySince.get(shard.id) ?? null,
        heardAtMs: shard.lastPingTimestamp > 0 ? shard.lastPingTimestamp : null,
        pingMs: shard.ping >= 0 ? shard.ping : null,
      }
    })
    const isFine = (one: ShardHealth) =>
      now - (one.awaySinceMs ?? now) <= AWAY_MS && now - (one.heardAtMs ?? now) <= SILENT_MS
    return { ok: ended === null && shards.length > 0 && shards.every(isFine), shards, ended }
  }
}
