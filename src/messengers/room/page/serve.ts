import { randomBytes } from 'node:crypto'
import type { AddressInfo } from 'node:net'
import { serve } from '@hono/node-server'
import type { Bot } from '#src/bot.ts'
import type { Deliver } from '#src/reminders/deliver.ts'
import { inTurn } from '#src/reminders/in-turn.ts'
import { startSending } from '#src/reminders/send-loop.ts'
import { SettingsError } from '#src/settings.ts'
import type { Demo } from '../../../../data/demo/load.ts'
import type { WallClock } from '../practice-clock.ts'
import { pageApp } from './app.ts'
import { bundleAssets, readIcon } from './assets.ts'
import type { Hub } from './hub.ts'
import { openDoor } from './secret.ts'
import type { Uploads } from './uploads.ts'

export interface PageParts {
  readonly bot: Bot
  readonly demo: Demo
  readonly clock: WallClock
  /** Woken by whatever is answered or sent. */
  readonly hub: Hub
  /** Takes what falls due, whether the clock runs or is moved. */
  readonly deliver: Deliver
  readonly uploads: Uploads
  readonly zone: string
  /** 0 takes any free port. */
  readonly port: number
  readonly host: string
  /** Needed when other machines may come: without it they may not. */
  readonly secret: string | null
  /** How often messages are looked for that fall due while the clock simply runs. */
  readonly lookEveryMs?: number
}

export interface Page {
  readonly address: string
  close(): Promise<void>
}

const LOOPBACK = /^(127\.\d+\.\d+\.\d+|::1|localhost)$/
const LOOK_MS = 5000

/** Serves the practice room as a page. @throws SettingsError when the port is taken, or a secret is missing */
export async function servePage(parts: PageParts): Promise<Page> {
  const isOpen = !LOOPBACK.test(parts.host)
  if (isOpen && parts.secret === null)
    throw new SettingsError('PAGE_SECRET: needed when PAGE_HOST lets other machines in.')
  const ended = new AbortController()
  // A look in the middle of a moved clock would send at its end what belongs to a morning that it passes.
  const takeTurn = inTurn()
  const app = pageApp({
    ...parts,
    takeTurn,
    token: randomBytes(24).toString('base64url'),
    assets: await bundleAssets(),
    icon: await readIcon(),
    place: { isOpen },
    door: openDoor(parts.secret),
    ended: ended.signal,
  })
  const server = await listen(app.fetch, parts)
  const { bot } = parts
  const stopSending = startSending(
    { database: bot.database, reportError: bot.reportError, answering: async () => bot },
    parts.deliver,
    parts.clock.peekMs,
    parts.lookEveryMs ?? LOOK_MS,
    undefined,
    takeTurn,
  )
  const { port } = server.address() as AddressInfo
  const host = parts.host.includes(':') ? `[${parts.host}]` : parts.host
  return {
    address: `http://${host}:${port}/`,
    async close() {
      ended.abort()
      await stopSending()
      await new Promise((done) => {
        server.close(done)
        if ('closeAllConnections' in server) server.closeAllConnections()
      })
    },
  }
}

type Server = ReturnType<typeof serve>

function listen(fetch: Parameters<typeof serve>[0]['fetch'], { port, host }: PageParts): Promise<Server> {
  return new Promise((done, fail) => {
    const server = serve({ fetch, port, hostname: host }, () => done(server))
    server.once('error', (error: NodeJS.ErrnoException) =>
      fail(
        error.code === 'EADDRINUSE'
          ? new SettingsError(`PORT: ${port} is taken. Choose another for the practice page.`)
          : error,
      ),
    )
  })
}
