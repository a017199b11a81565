/**
 * The live bot as it runs in earnest, started by the ordeal, which may set its clock, slow its disk, fill it, take
 * away the right to write, and make it hang. Everything else is the same code and the same settings.
 */
import { pino } from 'pino'
import { commands } from '#commands/index.ts'
import { runLive } from '#src/live.ts'
import { readSettings } from '#src/settings.ts'
import type { SqliteDatabase } from '#src/store/sqlite-engine.ts'

/** What the ordeal tells the process; each stays until it is told otherwise. */
export interface Order {
  readonly clockMs?: number
  readonly pauseMs?: number
  readonly full?: boolean
  readonly readOnly?: boolean
  readonly hang?: boolean
}

const MOST_PAGES = 0x3fffffff

let clockMs = 0
let pauseMs = 0
let db: SqliteDatabase | null = null

process.on('message', (order: Order) => {
  clockMs = order.clockMs ?? clockMs
  pauseMs = order.pauseMs ?? pauseMs
  if (order.full !== undefined) {
    const pages = db?.pragma('page_count', { simple: true })
    db?.pragma(`max_page_count = ${order.full ? pages : MOST_PAGES}`)
  }
  if (order.readOnly !== undefined) db?.pragma(`query_only = ${order.readOnly ? 'on' : 'off'}`)
  if (order.hang === true) for (;;);
  process.send?.('done')
})
// Whoever started it is gone: nobody would end it.
process.on('disconnect', () => process.exit(1))

const settings = readSettings(process.env)
const log = pino({ level: settings.logLevel }, pino.destination(2))
await runLive({
  settings,
  token: settings.discordToken ?? '',
  loadCommands: async () => commands,
  log,
  reportError: (error, about) =>
    log.error({ err: String(error), ...about }, 'a request met an unexpected error'),
  trial: {
    nowMs: () => Date.now() + clockMs,
    sqlite: {
      pauseMs: () => pauseMs,
      opened: (opened) => {
        db = opened
      },
    },
    lookEveryMs: 500,
    identifyGapMs: Number(process.env.IDENTIFY_GAP_MS ?? 0),
    watchdog: { everyMs: 100, stuckAfter: 20 },
  },
})
