import type { Bot } from '#src/bot.ts'
import type { Commands } from '#src/desk/registry.ts'
import type { InTurn } from './in-turn.ts'
import type { Pace } from './pace.ts'
import { sendAll } from './send-all.ts'
import type { Deliver } from './send-due.ts'

const EVERY_MS = 15_000

/**
 * Looks for what is due, again and again, one look at a time. Returns what ends it, after the look under way.
 * @param takeTurn where something else sends as well, and neither may do so while the other does
 */
export function startSending(
  bot: Bot<Commands>,
  deliver: Deliver,
  nowMs: () => number = Date.now,
  everyMs: number = EVERY_MS,
  pace?: Pace,
  takeTurn: InTurn = (work) => work(),
): () => Promise<void> {
  let ended = false
  let timer: NodeJS.Timeout | undefined
  let looking: Promise<void> = Promise.resolve()

  const look = async () => {
    try {
      await takeTurn(() =>
        sendAll({
          database: bot.database,
          deliver,
          nowMs,
          registry: bot.registry,
          chooseSafety: bot.chooseSafety,
          reportError: bot.reportError,
          ...(pace === undefined ? {} : { pace }),
          stopped: () => ended,
        }),
      )
    } catch (error) {
      bot.reportError(error, { about: 'sending what is due' })
    }
    if (!ended) timer = setTimeout(start, everyMs)
  }
  const start = () => {
    looking = look()
  }
  start()
  return async () => {
    ended = true
    clearTimeout(timer)
    await looking
  }
}
