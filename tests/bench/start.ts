import { copyFile, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { bundleForNow } from '#src/bundle.mjs'
import { projectRoot } from '#src/project.ts'
import { openSqlite } from '#src/store/sqlite.ts'
import { liveSettings } from '#tests/helpers/live-settings.ts'
import { startBot } from './bots.ts'
import { median, rounded } from './figures.ts'
import { fill } from './growth.ts'
import { plainScript } from './plain-script.ts'
import { openPractice } from './practice.ts'
import { startWorld } from './world.ts'

/**
 * From the start of the process to ready, with so many records and messages in the store; beside a bare client that is
 * bundled alike, and one that takes its packages from where they were installed.
 */
export type StoreStart = {
  readonly records: number
  readonly start_ms: number
  readonly bare_start_ms: number
  readonly plain_start_ms: number
  readonly ratio: number
  readonly ready_mb: number | null
  readonly memory_ratio: number | null
}

const STARTS = 5

export async function measureStart(records: number): Promise<StoreStart> {
  const folder = await mkdtemp(path.join(tmpdir(), 'swardhand-start-'))
  const file = path.join(folder, 'crew.sqlite')
  await makeStore(file, records)
  const platforms = [await startWorld([]), await startWorld([])] as const
  const bundles = [
    await bundleForNow(projectRoot(), 'tests/bench/echo-bot.ts'),
    await bundleForNow(projectRoot(), 'src/main.ts'),
    await plainScript('tests/bench/echo-bot.ts'),
  ] as const
  try {
    const bare = { DISCORD_TOKEN: platforms[0].token, DISCORD_API: platforms[0].api }
    const settings = [
      bare,
      liveSettings(platforms[1], {
        address: { engine: 'sqlite', path: file },
        files: path.join(folder, 'files'),
      }),
      bare,
    ] as const
    const found = [0, 1, 2].map(() => ({ ms: [] as number[], mb: [] as (number | null)[] }))
    for (let at = 0; at <= STARTS; at += 1)
      for (const who of [0, 1, 2] as const) {
        const bot = await startBot(bundles[who].file, settings[who])
        // The first keeps what the engine has made of the text.
        if (at > 0) {
          found[who]?.ms.push(bot.readyMs)
          found[who]?.mb.push(bot.memoryMb())
        }
        await bot.stop()
      }
    const [alike, own, plain] = found.map(({ ms, mb }) => ({
      ms: median(ms),
      mb: mb.includes(null) ? null : median(mb.map(Number)),
    }))
    if (alike === undefined || own === undefined || plain === undefined)
      throw new Error('Nothing was started')
    return {
      records,
      start_ms: rounded(own.ms, 0),
      bare_start_ms: rounded(alike.ms, 0),
      plain_start_ms: rounded(plain.ms, 0),
      ratio: rounded(own.ms / alike.ms, 2),
      ready_mb: own.mb,
      memory_ratio: own.mb === null || alike.mb === null ? null : rounded(own.mb / alike.mb, 2),
    }
  } finally {
    for (const platform of platforms) await platform.stop()
    for (const bundle of bundles) bundle.remove()
    await rm(folder, { recursive: true, force: true })
  }
}

/** A full store as a bot on Discord opens it, with nothing left to send. */
async function makeStore(file: string, records: number): Promise<void> {
  const practice = await openPractice()
  try {
    await (await practice.readyLog()).keep()
    await fill(practice, records)
    const db = openSqlite({ path: practice.file })
    db.pragma('wal_checkpoint(TRUNCATE)')
    db.close()
    await copyFile(practice.file, file)
  } finally {
    await practice.close()
  }
  const db = openSqlite({ path: file })
  db.exec(`update meta set value = 'live' where name = 'purpose'`)
  db.exec('update deliveries set sent_at_ms = 1 where sent_at_ms is null')
  db.close()
}
