import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import path from 'node:path'
import { expect, onTestFinished, vi } from 'vitest'
import { projectRoot } from '#src/project.ts'
import { type DatabaseAddress, openDatabase } from '#src/store/open.ts'
import type { StandInSettings } from '#tests/discord-loopback/index.ts'
import { freshAddress } from '#tests/helpers/fresh-address.ts'
import { liveSettings } from '#tests/helpers/live-settings.ts'
import { seedCrew } from './seed.ts'
import { type Stage, startStage } from './stand-in.ts'

/** The bot as it runs in earnest: its own process, its own store, told everything by its surroundings. */
export interface RunningBot {
  readonly child: ChildProcess
  /** Lines of its log and whatever else it has printed. */
  output(): string
  /** Resolves when it answers; fails with what it has printed. */
  ready(): Promise<void>
  /** Exit code, or the signal that ended it. */
  ended(): Promise<number | string>
}

export interface Machine extends Stage {
  readonly address: DatabaseAddress
  start(settings?: Readonly<Record<string, string>>): RunningBot
}

/** A stand-in and a store on disk, on which bots are started; all that still run are ended with the test, by their ids. */
export async function startMachine(settings: StandInSettings = {}): Promise<Machine> {
  const stage = await startStage(settings)
  const address = await addressOnDisk(stage.folder)
  const store = await openDatabase(address, 'live')
  await seedCrew(store, stage.platform)
  await store.close()
  return { ...stage, address, start: (more = {}) => startBot(stage, address, more) }
}

/** A store that several processes can open: a file, or a schema of its own. */
export async function addressOnDisk(folder: string, file = 'crew.sqlite'): Promise<DatabaseAddress> {
  const address = await freshAddress()
  return address.engine === 'sqlite' ? { ...address, path: path.join(folder, file) } : address
}

function startBot(
  { platform, folder }: Stage,
  address: DatabaseAddress,
  more: Readonly<Record<string, string>>,
): RunningBot {
  const child = spawn(process.execPath, ['src/launch.mjs', 'src/main.ts'], {
    cwd: projectRoot(),
    env: {
      PATH: process.env.PATH,
      ...liveSettings(platform, { address, files: path.join(folder, 'files') }),
      DISCORD_FILE_HOSTS: `127.0.0.1:${platform.port}`,
      LOG_LEVEL: 'debug',
      ...more,
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  const printed: string[] = []
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (data) => printed.push(String(data)))
  const output = () => printed.join('')
  const hasEnded = () => child.exitCode !== null || child.signalCode !== null
  onTestFinished(() => {
    if (!hasEnded()) child.kill('SIGKILL')
  })
  return {
    child,
    output,
    ready: () =>
      vi.waitFor(
        () => {
          if (hasEnded()) throw new Error(`It has ended:\n${output()}`)
          expect(output()).toContain('"msg":"ready"')
        },
        { timeout: 60_000, interval: 50 },
      ),
    async ended() {
      if (!hasEnded()) await once(child, 'exit')
      return child.exitCode ?? child.signalCode ?? 'gone'
    },
  }
}
