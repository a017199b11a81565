import type { Log } from './log.ts'
import type { Discord } from './start.ts'

/**
 * Ends the process in order: at SIGTERM or SIGINT with 0, at the end of the connection with 1. Gives back what ends it
 * for any other reason.
 */
export function endWithSignals(
  discord: Discord,
  log: Log,
  finish: () => Promise<void>,
): (why: string, code: number) => Promise<void> {
  let leaving = false
  const leave = async (why: string, code: number): Promise<void> => {
    if (leaving) return
    leaving = true
    log.info({ why, code }, 'leaving')
    // Whatever hangs, the process ends.
    setTimeout(() => process.exit(code), HARD_END_MS).unref()
    await discord
      .stop()
      .catch((error: unknown) => log.error({ error: String(error) }, 'could not leave in order'))
    await finish().catch((error: unknown) => log.error({ error: String(error) }, 'could not close in order'))
    process.exit(code)
  }
  process.once('SIGTERM', () => void leave('SIGTERM', 0))
  process.once('SIGINT', () => void leave('SIGINT', 0))
  void discord.ended.then((why) => leave(why, 1))
  return leave
}

const HARD_END_MS = 12_000
