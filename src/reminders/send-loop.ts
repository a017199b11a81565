import { furthestDay } from '#src/desk/clock.ts'
import { mayHaveWork } from '#src/store/waiting-work.ts'
import type { Deliver } from './deliver.ts'
import type { InTurn } from './in-turn.ts'
import type { Pace } from './pace.ts'
import type { Sending } from './send-due.ts'

const EVERY_MS = 15_000

interface Sender extends Pick<Sending, 'database' | 'reportError'> {
  /** What puts messages together, brought when there first is one: never while a transaction waits. */
  readonly answering: () => Promise<Pick<Sending, 'registry' | 'chooseSafety'>>
}

/**
 * Looks for what is due, again and again, one look at a time. Returns what ends it, after the look under way.
 * @param takeTurn where something else sends as well, and neither may do so while the other does
 */
export function startSending(
  { database, answering, reportError }: Sender,
  deliver: Deliver,
  nowMs: () => number = Date.now,
  everyMs: number = EVERY_MS,
  pace?: Pace,
  takeTurn: InTurn = (work) => work(),
): () => Promise<void> {
  let ended = false
  let timer: NodeJS.Timeout | undefined
  let looking: Promise<void> = Promise.resolve()

  let hasHadWork = false

  const look = async () => {
    try {
      await takeTurn(async () => {
        hasHadWork ||= await mayHaveWork(database, nowMs(), furthestDay(nowMs()))
        if (!hasHadWork || ended) return
        // Loaded when there first is something: planning and sending take as much as half of a start.
        const [{ sendAll }, { registry, chooseSafety }] = await Promise.all([
          import('./send-all.ts'),
          answering(),
        ])
        await sendAll({
          database,
          deliver,
          nowMs,
          ...(registry === undefined ? {} : { registry }),
          chooseSafety,
          reportError,
          ...(pace === undefined ? {} : { pace }),
          stopped: () => ended,
        })
      })
    } catch (error) {
      reportError(error, { about: 'sending what is due' })
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
