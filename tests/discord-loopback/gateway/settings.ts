export interface GatewaySettings {
  /** Shards that `/gateway/bot` recommends and that an identify must have at least. @default 1 */
  shards: number
  /** Identifies that may happen at once, by shard. @default 1 */
  maxConcurrency: number
  /** Time until the next identify of the same kind, ms; sooner gives op 9. 0: no such rule. @default 5000 */
  identifyIntervalMs: number
  /** @default 41250 */
  heartbeatIntervalMs: number
  /** READY comes this late, ms. @default 0 */
  readyDelayMs: number
  /** Whether members, presences and message content may be asked for. @default false */
  privilegedIntents: boolean
  /** How long a session without a socket can be resumed, ms by the stand-in's clock (from memory). @default 120000 */
  sessionLifeMs: number
}

const DEFAULTS: GatewaySettings = {
  shards: 1,
  maxConcurrency: 1,
  identifyIntervalMs: 5000,
  heartbeatIntervalMs: 41_250,
  readyDelayMs: 0,
  privilegedIntents: false,
  sessionLifeMs: 120_000,
}

/** The given settings over the defaults; absent ones keep their default. */
export function withDefaults(given: Partial<GatewaySettings>): GatewaySettings {
  const keys = Object.keys(DEFAULTS) as (keyof GatewaySettings)[]
  const set = keys.filter((key) => given[key] !== undefined).map((key) => [key, given[key]])
  return { ...DEFAULTS, ...Object.fromEntries(set) }
}
