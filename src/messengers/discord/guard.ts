import type { Log } from './log.ts'
import { describeError } from './platform-error.ts'

/**
 * Keeps a malformed dispatch from ending the process: the client builds its objects before anybody can look at them,
 * and a missing field becomes a rejection that nobody holds. Returns what takes the guard away again.
 */
export function guardProcess(log: Log): () => void {
  const note = (reason: unknown) =>
    log.error({ error: describeError(reason) }, 'something was rejected and nobody was waiting for it')
  process.on('unhandledRejection', note)
  return () => process.off('unhandledRejection', note)
}
