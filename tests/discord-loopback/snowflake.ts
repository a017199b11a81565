import type { Clock } from './clock.ts'

/** First ms of 2015 UTC, from which ids count. Source: Discord developer docs, reference, "Snowflakes". */
const EPOCH_MS = 1_420_070_400_000
const COUNTER_BITS = 22n

/** The id made in that ms, with `counter` (0 to 4194303) in its low bits. */
export function snowflakeAt(ms: number, counter = 0): string {
  return ((BigInt(ms - EPOCH_MS) << COUNTER_BITS) | BigInt(counter)).toString()
}

/** When that id was made, ms UTC. */
export function snowflakeTimeMs(id: string): number {
  return Number(BigInt(id) >> COUNTER_BITS) + EPOCH_MS
}

/** Which of `shardCount` shards hears of a guild. Source: Discord developer docs, events/gateway, "Sharding". */
export function shardOf(guildId: string | undefined, shardCount: number): number {
  return guildId === undefined ? 0 : Number((BigInt(guildId) >> COUNTER_BITS) % BigInt(shardCount))
}

/** Ids in the order asked, never twice the same, dated by the clock. */
export class Snowflakes {
  readonly #clock: Clock
  #counter = 0

  constructor(clock: Clock) {
    this.#clock = clock
  }

  next(): string {
    this.#counter = (this.#counter + 1) % 4096
    return snowflakeAt(this.#clock.nowMs(), this.#counter)
  }
}

const LOOKS_LIKE_ID = /^\d{17,20}$/

export const isSnowflake = (value: unknown): value is string =>
  typeof value === 'string' && LOOKS_LIKE_ID.test(value)
