import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { appendFileSync } from 'node:fs'
import { setTimeout as wait } from 'node:timers/promises'
import { bundleForNow } from '#src/bundle.mjs'
import { projectRoot } from '#src/project.ts'
import type { Order } from './bot.ts'

export interface SupervisorParts {
  readonly environment: Readonly<Record<string, string>>
  /** Everything that the processes print. */
  readonly logFile: string
}

/** How a process ended: its exit code, or the signal. */
export type Ending = number | string

/** Keeps one bot running, as a service manager would: whenever it ends, it is started again. */
export interface Supervisor {
  readonly isReady: boolean
  /** Times that the process came back, in ms from its end until it said that it was ready. */
  readonly comebacksMs: readonly number[]
  /** How each process ended that was not killed by the ordeal. */
  readonly ends: readonly Ending[]
  /** @throws when it is not ready in time */
  ready(withinMs?: number): Promise<void>
  kill(): Promise<void>
  order(order: Order): Promise<void>
  /** Tells it to end in order, as before an update; it is started again at once. */
  end(): Promise<Ending>
  /** One more process beside it; gives back what ends it: without a word, or in order. */
  startAnother(): Promise<(signal?: 'SIGKILL' | 'SIGTERM') => Promise<void>>
  /** Ends it in order; its exit code. */
  stop(): Promise<Ending>
}

const READY = '"msg":"ready"'
const READY_WITHIN_MS = 60_000

/** The bot bundled once, since it is started hundreds of times. */
export async function startSupervisor(parts: SupervisorParts): Promise<Supervisor> {
  const { file, remove } = await bundleForNow(projectRoot(), 'tests/ordeal/bot.ts')

  const comebacksMs: number[] = []
  const ends: Ending[] = []
  let stopping = false
  let killed = false
  let child: ChildProcess
  let isReady = false
  let endedAtMs: number | null = null

  function launch(onReady: () => void): ChildProcess {
    const made = spawn(process.execPath, [file], {
      cwd: projectRoot(),
      env: { PATH: process.env.PATH ?? '', ...parts.environment },
      stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
    })
    const read = (data: Buffer) => {
      appendFileSync(parts.logFile, data)
      if (String(data).includes(READY)) onReady()
    }
    made.stdout?.on('data', read)
    made.stderr?.on('data', read)
    return made
  }

  function start(): void {
    killed = false
    child = launch(() => {
      isReady = true
      if (endedAtMs !== null) comebacksMs.push(performance.now() - endedAtMs)
      endedAtMs = null
    })
    const mine = child
    mine.once('exit', (code, signal) => {
      isReady = false
      if (mine !== child) return
      endedAtMs ??= performance.now()
      if (!killed && !stopping) ends.push(code ?? signal ?? 'gone')
      if (!stopping) start()
    })
  }
  start()

  const hasEnded = (one: ChildProcess) => one.exitCode !== null || one.signalCode !== null
  return {
    get isReady() {
      return isReady
    },
    comebacksMs,
    ends,
    async ready(withinMs = READY_WITHIN_MS) {
      const until = performance.now() + withinMs
      while (!isReady) {
        if (performance.now() > until) throw new Error(`The bot did not come back in ${withinMs} ms`)
        await wait(5)
      }
    },
    async kill() {
      const mine = child
      if (hasEnded(mine)) return
      killed = true
      mine.kill('SIGKILL')
      if (!hasEnded(mine)) await once(mine, 'exit')
    },
    async end() {
      const mine = child
      mine.kill('SIGTERM')
      if (!hasEnded(mine)) await once(mine, 'exit')
      return mine.exitCode ?? mine.signalCode ?? 'gone'
    },
    async order(order) {
      const mine = child
      if (hasEnded(mine) || !mine.connected) return
      const done = Promise.race([once(mine, 'message'), once(mine, 'exit')])
      mine.send(order, () => {})
      if (order.hang !== true) await done
    },
    async startAnother() {
      let other = false
      const beside = launch(() => {
        other = true
      })
      const until = performance.now() + READY_WITHIN_MS
      while (!other && !hasEnded(beside) && performance.now() < until) await wait(5)
      return async (signal = 'SIGKILL') => {
        if (hasEnded(beside)) return
        beside.kill(signal)
        if (!hasEnded(beside)) await once(beside, 'exit')
      }
    },
    async stop() {
      stopping = true
      const mine = child
      if (!hasEnded(mine)) {
        mine.kill('SIGTERM')
        if (!hasEnded(mine)) await once(mine, 'exit')
      }
      remove()
      return mine.exitCode ?? mine.signalCode ?? 'gone'
    },
  }
}
