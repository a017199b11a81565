import { createServer, type Server } from 'node:http'
import type { Health } from './messengers/discord/health.ts'
import { SettingsError } from './settings.ts'
import type { StoreCondition } from './store/condition.ts'

export interface HealthParts {
  readonly port: number
  /** The setting that named the port, for when it is taken. */
  readonly setting: string
  readonly gateway: () => Health
  readonly store: () => Promise<StoreCondition>
}

/** A reminder may be this late: a look takes 15 s, a lease of a process that died twenty. */
const LAG_MS = 5 * 60_000

/**
 * One page, `/health`, on loopback only: 200 while the gateway, the store and the reminders are well, else 503. It
 * tells no name and no word of anybody. @throws SettingsError if the port is taken
 */
export function serveHealth(parts: HealthParts): Promise<Server> {
  const server = createServer((request, response) => {
    if (request.url !== '/health') {
      response.writeHead(404).end()
      return
    }
    void look(parts).then((seen) =>
      response
        .writeHead(seen.ok ? 200 : 503, { 'content-type': 'application/json' })
        .end(JSON.stringify(seen)),
    )
  })
  return new Promise((done, fail) => {
    server.once('error', (error: NodeJS.ErrnoException) =>
      fail(
        error.code === 'EADDRINUSE'
          ? new SettingsError(`${parts.setting}: ${parts.port} is taken. Choose another for the health page.`)
          : error,
      ),
    )
    server.listen(parts.port, '127.0.0.1', () => done(server))
  })
}

async function look({ gateway, store }: HealthParts) {
  const { ok: connected, shards, ended } = gateway()
  const { ok: writable, writeMs, overdue, lagMs } = await store()
  const reminders = { ok: lagMs <= LAG_MS, overdue, lagMs }
  return {
    ok: connected && writable && reminders.ok,
    gateway: { ok: connected },
    shards,
    ended,
    store: { ok: writable, writeMs },
    reminders,
  }
}
