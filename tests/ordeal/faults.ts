import { setTimeout as wait } from 'node:timers/promises'
import type { Random } from '#src/season/random.ts'
import type { Engine } from '#src/store/dialect.ts'
import { openSqlite } from '#src/store/sqlite.ts'
import type { DiscordStandIn } from '#tests/discord-loopback/index.ts'
import type { OrdealCrew } from './people.ts'
import type { Supervisor } from './supervisor.ts'

export interface FaultStage {
  readonly platform: DiscordStandIn
  readonly supervisor: Supervisor
  readonly crew: OrdealCrew
  readonly database: string
  readonly random: Random
}

/** Begins some trouble; gives back what ends it. */
export type Fault = (stage: FaultStage) => Promise<() => Promise<void> | void>

const CALLBACK = { method: 'POST', route: /callback$/ }
const SEND = { method: 'POST', route: /messages$/ }
const nothing = () => {}

const told =
  (order: Parameters<Supervisor['order']>[0], back: Parameters<Supervisor['order']>[0]): Fault =>
  async ({ supervisor }) => {
    await supervisor.order(order)
    return () => supervisor.order(back)
  }

/** Strikes answers and reminders alike for as long as it lasts. */
const onCalls =
  (strike: (platform: DiscordStandIn, match: typeof CALLBACK | typeof SEND) => () => void): Fault =>
  async ({ platform }) => {
    const ends = [CALLBACK, SEND].map((match) => strike(platform, match))
    return () => {
      for (const end of ends) end()
    }
  }

const DAY_MS = 86_400_000

/** What is done to a file; a server's disk is its own. */
const OF_FILES = ['disk-full', 'disk-read-only', 'disk-slow', 'store-locked']

/** Names of the faults that a store on this engine can have. */
export const faultsOf = (engine: Engine): string[] =>
  Object.keys(faults).filter((name) => engine === 'sqlite' || !OF_FILES.includes(name))

/** Everything that is tried, by the name under which it is counted. */
export const faults: Readonly<Record<string, Fault>> = {
  'disk-full': told({ full: true }, { full: false }),
  'disk-read-only': told({ readOnly: true }, { readOnly: false }),
  'disk-slow': told({ pauseMs: 15 }, { pauseMs: 0 }),
  'store-locked': async ({ database, random }) => {
    const holder = openSqlite({ path: database })
    for (;;)
      try {
        holder.exec('begin immediate')
        break
      } catch {
        await wait(5)
      }
    const letGo = wait(200 + random.next() * 3000).then(() => {
      holder.exec('rollback')
      holder.close()
    })
    return () => letGo
  },
  'two-processes': async ({ supervisor }) => supervisor.startAnother(),
  'clock-forward': told({ clockMs: 2 * DAY_MS }, { clockMs: 0 }),
  'clock-back': told({ clockMs: -2 * DAY_MS }, { clockMs: 0 }),
  'clock-minutes': told({ clockMs: 90_000 }, { clockMs: 0 }),
  'process-hangs': async ({ supervisor }) => {
    await supervisor.order({ hang: true })
    return nothing
  },
  'socket-dropped': async ({ platform }) => {
    platform.dropSocket()
    return nothing
  },
  'socket-silent': async ({ platform }) => {
    platform.gateway.pauseSocket()
    return () => platform.dropSocket()
  },
  'heartbeats-unanswered': async ({ platform }) => {
    platform.stopAcks()
    return async () => {
      await wait(300)
      platform.gateway.resumeAcks()
    }
  },
  'told-to-reconnect': async ({ platform }) => {
    platform.sendOp7()
    return nothing
  },
  'session-invalid': async ({ platform, random }) => {
    platform.sendOp9(random.chance(0.5))
    return nothing
  },
  'gateway-refused': async ({ platform }) => {
    platform.gateway.refuseUpgrades(503)
    platform.dropSocket()
    return async () => {
      await wait(500)
      platform.gateway.refuseUpgrades(undefined)
    }
  },
  'gateway-closed-for-good': async ({ platform }) => {
    platform.close(4014)
    return nothing
  },
  'frames-malformed': async ({ platform }) => {
    for (const frame of [
      '{"op":0,"t":"INTERACTION_CREATE","s":',
      '{"op":0,"t":"INTERACTION_CREATE","d":null}',
      '[]',
    ])
      platform.gateway.sendRaw(frame)
    return nothing
  },
  'dispatches-again': async ({ platform, crew }) => {
    for (const { fired } of crew.deeds.slice(-8)) fired.sendAgain()
    platform.gateway.replayFrom(0)
    return () => {
      for (const { fired } of crew.deeds.slice(-5)) fired.sendAgain()
    }
  },
  'dispatches-late': async ({ platform }) => {
    platform.dropSocket()
    return () => platform.clock.advance(3500)
  },
  'rest-429': onCalls((platform, match) => platform.faults.tooMany(match, { retryAfterS: 0.4, times: 4 })),
  'rest-429-global': onCalls((platform, match) =>
    platform.faults.tooMany(match, { retryAfterS: 0.4, global: true, times: 2 }),
  ),
  'rest-500': onCalls((platform, match) => platform.faults.serverError(match, { times: 5 })),
  'rest-timeout': onCalls((platform, match) =>
    platform.faults.delay(match, 6000, { times: 2, when: 'before' }),
  ),
  'rest-slow-answer': onCalls((platform, match) => platform.faults.delay(match, 1200, { times: 3 })),
  'rest-cut': onCalls((platform, match) =>
    platform.faults.plan(match, ({ n }) => ({ kind: 'drop', when: n % 2 === 0 ? 'before' : 'after' }), {
      times: 4,
    }),
  ),
  'rest-malformed': onCalls((platform, match) =>
    platform.faults.answer(
      match,
      {
        status: 502,
        bytes: Buffer.from('<html>bad gateway'),
        headers: { 'content-type': 'application/json' },
      },
      { times: 2 },
    ),
  ),
}
