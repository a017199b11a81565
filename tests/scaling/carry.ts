/** What one request costs, measured: `npm run bench` and docs/performance.md. */
export interface Costs {
  /** Processor time of the program, the way to and from the platform in it, ms. */
  readonly processMs: number
  /** Processor time of PostgreSQL, ms. */
  readonly databaseMs: number
  readonly statements: number
  /** Heap of the client for a server, kB. */
  readonly heapKb: number
}

/** What crews do, assumed: put in your own. */
export interface Habits {
  /** Mixes, presses, logs and looks of a crew on a workday. */
  readonly requestsADay: number
  /** The share of them that falls into the busy hours. */
  readonly busyShare: number
  readonly busyHours: number
}

/** One run of `npm run bench` on 2 cores, docs/performance.md: a `/mix` on PostgreSQL, which costs most of what is asked often. */
export const MEASURED: Costs = { processMs: 5.6, databaseMs: 3.8, statements: 19, heapKb: 3.3 }

/**
 * A crew of the season in `npm run season` makes 25 mixes a week; with the presses, logs and looks that belong to them
 * that is taken as 80 requests a workday, half of them in its two busiest hours. An assumption, no source.
 */
export const ASSUMED: Habits = { requestsADay: 80, busyShare: 0.5, busyHours: 2 }

/** Answers stay quick while a core is busy half of the time. */
const MOST_BUSY = 0.5
/** The most that one shard may serve (discord.com/developers/docs, topics/gateway, "Sharding"). */
const SERVERS_A_SHARD = 2500

export interface Carried {
  readonly crews: number
  /** In the busy hours. */
  readonly requestsASecond: number
  readonly coresBusy: number
  readonly processes: number
  readonly databaseCoresBusy: number
  readonly statementsASecond: number
  readonly heapMb: number
  readonly shards: number
}

export function carry(crews: number, costs: Costs, habits: Habits): Carried {
  const requestsASecond = crews * aCrew(habits)
  const coresBusy = (requestsASecond * costs.processMs) / 1000
  return {
    crews,
    requestsASecond,
    coresBusy,
    processes: Math.max(1, Math.ceil(coresBusy / MOST_BUSY)),
    databaseCoresBusy: (requestsASecond * costs.databaseMs) / 1000,
    statementsASecond: requestsASecond * costs.statements,
    heapMb: (crews * costs.heapKb) / 1000,
    shards: Math.max(1, Math.ceil(crews / SERVERS_A_SHARD)),
  }
}

/** Requests a second of one crew in the busy hours. */
const aCrew = ({ requestsADay, busyShare, busyHours }: Habits) =>
  (requestsADay * busyShare) / (busyHours * 3600)

/** Crews whose busy hours keep one process half busy. */
export function crewsAProcess({ processMs }: Costs, habits: Habits): number {
  return (MOST_BUSY * 1000) / processMs / aCrew(habits)
}

/** Crews whose busy hours keep a database with so many cores half busy. */
export function crewsADatabase({ databaseMs }: Costs, habits: Habits, cores: number): number {
  return (cores * MOST_BUSY * 1000) / databaseMs / aCrew(habits)
}
