import { Worker } from 'node:worker_threads'

export interface Watchdog {
  stop(): Promise<void>
}

export interface WatchdogParts {
  /** How often is looked. @default 1,000 ms */
  readonly everyMs?: number
  /** Looks in a row at a loop that does not move until the process is ended. @default 30 */
  readonly stuckAfter?: number
  /** Whether the connection is well, as the health page tells it. */
  readonly isWell: () => boolean
  /** Looks in a row at a connection that is not well. @default 300: a resume takes moments, an outage minutes */
  readonly unwellAfter?: number
  /** Ends the process in order, so that whoever watches over it starts it again. */
  readonly onUnwell: () => void
}

const EVERY_MS = 1000
const STUCK_AFTER = 30
const UNWELL_AFTER = 300

/**
 * Ends a process that has stopped doing its work. A loop that is stuck cannot see it, so a thread of its own looks;
 * looks are counted and not clocked, since a machine that slept or a clock that was set is no reason to end.
 */
export function startWatchdog(parts: WatchdogParts): Watchdog {
  const { everyMs = EVERY_MS, stuckAfter = STUCK_AFTER, unwellAfter = UNWELL_AFTER } = parts
  const shared = new SharedArrayBuffer(4)
  const beats = new Int32Array(shared)
  let unwell = 0
  let hasTold = false
  const beat = setInterval(() => {
    Atomics.add(beats, 0, 1)
    unwell = parts.isWell() ? 0 : unwell + 1
    if (unwell < unwellAfter || hasTold) return
    hasTold = true
    parts.onUnwell()
  }, everyMs)
  beat.unref()
  const worker = new Worker(LOOK, { eval: true, workerData: { shared, everyMs, stuckAfter } })
  worker.unref()
  // A thread that could not start leaves the process as it was without one.
  worker.on('error', () => {})
  return {
    async stop() {
      clearInterval(beat)
      await worker.terminate()
    },
  }
}

const LOOK = `
const { workerData } = require('node:worker_threads')
const { writeSync } = require('node:fs')
const beats = new Int32Array(workerData.shared)
let last = -1
let still = 0
setInterval(() => {
  const now = Atomics.load(beats, 0)
  still = now === last ? still + 1 : 0
  last = now
  if (still < workerData.stuckAfter) return
  const msg = 'the event loop is stuck: ended, to be started again'
  writeSync(2, JSON.stringify({ level: 60, time: Date.now(), pid: process.pid, msg }) + '\\n')
  process.kill(process.pid, 'SIGKILL')
}, workerData.everyMs)
`
