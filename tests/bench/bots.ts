import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { readFileSync } from 'node:fs'
import { projectRoot } from '#src/project.ts'
import { processorMs } from './processor.ts'

/** A bot in a process of its own, started from a bundle. */
export interface RunningBot {
  /** From the start of the process until it said that it is ready; ms. */
  readonly readyMs: number
  /** Resident memory as it is now, MB; null where the system has no /proc. */
  memoryMb(): number | null
  /** Processor time that it has taken so far, ms; null where the system has no /proc. */
  processorMs(): number | null
  stop(): Promise<void>
}

/**
 * How the program is started, and so every bot here: with a smaller heap in sight it lets go sooner of what it no longer
 * needs, and a paper of a million records adds less to what is resident.
 */
export const FLAGS = ['--max-semi-space-size=4', '--max-old-space-size=512']

const READY_WITHIN_MS = 60_000
const STOPS_WITHIN_MS = 10_000

/** Starts a bundled bot. @throws with what it has printed, if it ends or is not ready in time */
export async function startBot(
  file: string,
  environment: Readonly<Record<string, string>>,
): Promise<RunningBot> {
  const began = performance.now()
  const child = spawn(process.execPath, [...FLAGS, file], {
    cwd: projectRoot(),
    env: { PATH: process.env.PATH, ...environment },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  const hasEnded = () => child.exitCode !== null || child.signalCode !== null
  let printed = ''
  const readyMs = await new Promise<number>((resolve, reject) => {
    const late = setTimeout(() => fail('is not ready'), READY_WITHIN_MS)
    const fail = (what: string) => {
      clearTimeout(late)
      child.kill('SIGKILL')
      reject(new Error(`Cannot measure a bot that ${what}:\n${printed}`))
    }
    child.once('exit', () => fail('has ended'))
    for (const stream of [child.stdout, child.stderr])
      stream.on('data', (data) => {
        printed = `${printed}${data}`.slice(-10_000)
        if (!printed.includes('"msg":"ready"')) return
        clearTimeout(late)
        resolve(performance.now() - began)
      })
  })
  return {
    readyMs,
    memoryMb: () => residentMb(child.pid ?? 0),
    processorMs: () => processorMs(child.pid ?? 0),
    async stop() {
      if (hasEnded()) return
      const end = once(child, 'exit')
      child.kill('SIGTERM')
      const killed = setTimeout(() => child.kill('SIGKILL'), STOPS_WITHIN_MS)
      await end
      clearTimeout(killed)
    },
  }
}

function residentMb(pid: number): number | null {
  try {
    const kb = /VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]
    return kb === undefined ? null : Math.round(Number(kb) / 102.4) / 10
  } catch {
    return null
  }
}
