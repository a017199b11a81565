import { appendFileSync, existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { expect, onTestFinished } from 'vitest'
import { type DiscordStandIn, type StandInSettings, startDiscord } from '#tests/discord-loopback/index.ts'
import { judgeBodies } from './bodies.ts'

export interface Stage {
  readonly platform: DiscordStandIn
  /** A folder that goes with the test. */
  readonly folder: string
  /** Every request body of this test, a line each. */
  readonly bodiesFile: string
}

/**
 * A stand-in for one test. When the test is over no rule may have been broken, and every body that was sent is judged
 * once more from the file. With E2E_BODIES set, all of them are added to that file, for an outside check.
 */
export async function startStage(settings: StandInSettings = {}): Promise<Stage> {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-e2e-'))
  const bodiesFile = path.join(folder, 'bodies.jsonl')
  const platform = await startDiscord({ identifyIntervalMs: 0, bodiesFile, ...settings })
  onTestFinished(async () => {
    await platform.stop()
    const all = process.env.E2E_BODIES
    if (all && existsSync(bodiesFile)) appendFileSync(all, readFileSync(bodiesFile))
    try {
      platform.assertClean()
      expect(platform.warnings).toEqual([])
      if (existsSync(bodiesFile)) expect(judgeBodies(bodiesFile).complaints).toEqual([])
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  })
  return { platform, folder, bodiesFile }
}
