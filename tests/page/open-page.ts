import type { Bot } from '#src/bot.ts'
import type { Command } from '#src/desk/command.ts'
import { openHub } from '#src/messengers/room/page/hub.ts'
import { pokingBot } from '#src/messengers/room/page/poking-bot.ts'
import { servePage } from '#src/messengers/room/page/serve.ts'
import { openUploads } from '#src/messengers/room/page/uploads.ts'
import { practiceClock, type WallClock } from '#src/messengers/room/practice-clock.ts'
import { openPracticeBot } from '#tests/helpers/practice-bot.ts'

/** Monday, 4 May 2026, 9 in the morning where the demo crew works. */
export const MONDAY_MS = Date.parse('2026-05-04T09:00:00-04:00')

export interface OpenPage {
  readonly address: string
  readonly bot: Bot
  readonly clock: WallClock
  readonly errors: unknown[]
  close(): Promise<void>
}

export interface OpenPageParts {
  readonly host?: string
  readonly secret?: string
  readonly port?: number
  /** Where the store lies; without it, a fresh one. */
  readonly database?: string
  readonly commands?: readonly Command[]
  readonly lookEveryMs?: number
}

/** The practice room served as a page on a free port of this machine, with the demo crew in it. */
export async function openPage(parts: OpenPageParts = {}): Promise<OpenPage> {
  const uploads = openUploads()
  const hub = openHub()
  const clock = practiceClock(MONDAY_MS, Date.now)
  const practice = await openPracticeBot({
    address: parts.database === undefined ? undefined : { engine: 'sqlite', path: parts.database },
    commands: parts.commands,
    fetchFile: uploads.fetch,
    seededAtMs: clock.nowMs(),
  })
  const bot = pokingBot(hub, practice.bot)
  const { demo, errors } = practice
  const page = await servePage({
    bot,
    demo,
    clock,
    hub,
    deliver: async () => hub.poke(),
    uploads,
    zone: demo.crew.zone,
    port: parts.port ?? 0,
    host: parts.host ?? '127.0.0.1',
    secret: parts.secret ?? null,
    ...(parts.lookEveryMs === undefined ? {} : { lookEveryMs: parts.lookEveryMs }),
  })
  return {
    address: page.address.replace(/\/$/, ''),
    bot,
    clock,
    errors,
    async close() {
      await page.close()
      await practice.close()
    },
  }
}
