import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { commands } from '#commands/index.ts'
import { type Bot, openBot } from '#src/bot.ts'
import type { Command } from '#src/desk/command.ts'
import { clockCommand } from '#src/messengers/room/clock-command.ts'
import { seedDemo } from '#src/messengers/room/demo.ts'
import { openHub } from '#src/messengers/room/page/hub.ts'
import { servePage } from '#src/messengers/room/page/serve.ts'
import { openUploads } from '#src/messengers/room/page/uploads.ts'
import { practiceClock, type WallClock } from '#src/messengers/room/practice-clock.ts'
import { loadDemo } from '../../data/demo/load.ts'

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
  /** Where the store lies; without it, in memory. */
  readonly database?: string
  readonly commands?: readonly Command[]
}

/** The practice room served as a page on a free port of this machine, with the demo crew in it. */
export async function openPage(parts: OpenPageParts = {}): Promise<OpenPage> {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-page-'))
  const errors: unknown[] = []
  const uploads = openUploads()
  const demo = loadDemo()
  const bot = await openBot({
    address: { engine: 'sqlite', path: parts.database ?? ':memory:' },
    purpose: 'practice',
    filesFolder: path.join(folder, 'blobs'),
    zone: demo.crew.zone,
    commands: [...commands, ...(parts.commands ?? []), clockCommand],
    fetchFile: uploads.fetch,
    reportError: (error) => errors.push(error),
    slowsFloods: false,
  })
  const clock = practiceClock(MONDAY_MS, Date.now)
  await seedDemo(bot.database, demo, demo.crew.zone, clock.nowMs())
  const page = await servePage({
    bot,
    demo,
    clock,
    hub: openHub(),
    uploads,
    zone: demo.crew.zone,
    port: parts.port ?? 0,
    host: parts.host ?? '127.0.0.1',
    secret: parts.secret ?? null,
  })
  return {
    address: page.address.replace(/\/$/, ''),
    bot,
    clock,
    errors,
    async close() {
      await page.close()
      await bot.close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}
