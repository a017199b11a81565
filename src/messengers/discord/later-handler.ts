import { later } from '#src/memory/later.ts'
import type { Handler } from './handle.ts'
import type { Log } from './log.ts'
import { describeError } from './platform-error.ts'

/** Takes interactions from the start, and brings what answers them when the first one comes. */
export function laterHandler(bring: () => Promise<Handler>, log: Log): Handler {
  const open = later(bring)
  const waiting = new Set<Promise<void>>()
  let handler: Handler | null = null
  let draining: Parameters<Handler['drain']>[0] | null = null

  const hand = async (raw: unknown, isNewcomer: boolean): Promise<void> => {
    const opened = await open()
    handler = opened
    // Newcomers are turned away by what knows their languages.
    if (isNewcomer && draining !== null) void opened.drain(draining)
    opened.take(raw)
  }

  return {
    take(raw) {
      if (handler !== null) return handler.take(raw)
      const work = hand(raw, draining !== null)
        .catch((error) => log.error({ error: describeError(error) }, 'an interaction was lost'))
        .finally(() => waiting.delete(work))
      waiting.add(work)
    },
    async drain(newcomers) {
      draining = newcomers
      await Promise.all(waiting)
      await handler?.drain(newcomers)
    },
    get inFlight() {
      return waiting.size + (handler?.inFlight ?? 0)
    },
  }
}
