import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { commands } from '#commands/index.ts'
import { type Bot, openBot } from '#src/bot.ts'
import type { Speaker } from '#src/conversation/ask.ts'
import { clockCommand } from '#src/messengers/room/clock-command.ts'
import { demoSpeaker, seedDemo } from '#src/messengers/room/demo.ts'
import { practiceClock } from '#src/messengers/room/practice-clock.ts'
import { openSession, type Shown } from '#src/messengers/room/session.ts'
import type { DatabaseAddress } from '#src/store/open.ts'
import type { SqliteDatabase } from '#src/store/sqlite-engine.ts'
import { careful } from '#tests/commands/fill-log.ts'
import { loadDemo } from '../../data/demo/load.ts'

const START = '2026-07-01T09:00:00-04:00'
const MOST_FORMS = 15

/** The invented crew with its store on disk, and somebody who types. */
export interface Practice {
  readonly bot: Bot
  /** Where its store is, on SQLite. */
  readonly file: string
  readonly nowMs: number
  readonly speaker: Speaker
  /** How many statements the store was asked so far. */
  readonly statements: number
  type(line: string): Promise<Shown>
  /** A log with everything said at once, and its forms; what is left is the press that keeps it. */
  readyLog(): Promise<{ keep(): Promise<Shown> }>
  close(): Promise<void>
}

/**
 * @param opened sees the store's connection before anything is asked
 * @param address another store than one on disk; its statements are not counted
 */
export async function openPractice(
  opened: (db: SqliteDatabase) => void = () => {},
  address?: DatabaseAddress,
): Promise<Practice> {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-growth-'))
  const file = path.join(folder, 'crew.sqlite')
  const demo = loadDemo()
  let statements = 0
  const bot = await openBot({
    address: address ?? {
      engine: 'sqlite',
      path: file,
      opened,
      pauseMs() {
        statements += 1
        return 0
      },
    },
    purpose: 'practice',
    filesFolder: path.join(folder, 'files'),
    zone: demo.crew.zone,
    commands: [...commands, clockCommand],
    fetchFile: () => Promise.reject(new Error('Nobody sends files here')),
    reportError(error) {
      throw error
    },
    slowsFloods: false,
  })
  const clock = practiceClock(Date.parse(START), Date.now)
  await seedDemo(bot.database, demo, demo.crew.zone, clock.nowMs())
  const speaker = demoSpeaker(demo, 'bex', 'en')
  const session = openSession({ bot, clock, speaker, locale: 'en' })
  const type = async (line: string) => {
    const shown = (await session.type(line)).at(-1)
    if (shown === undefined) throw new Error('Nothing was typed')
    return shown
  }
  return {
    bot,
    file,
    nowMs: clock.nowMs(),
    speaker,
    get statements() {
      return statements
    },
    type,
    async readyLog() {
      let shown = await type(LOG)
      for (let at = 0; at < MOST_FORMS && shown.presented.form !== null; at += 1) {
        const values = shown.presented.form.fields.map(({ name }) => `${name}:"${careful[name] ?? ''}"`)
        shown = await type(`= ${values.join(' ')}`)
      }
      const at = shown.presented.choices.findIndex(({ label }) => label.startsWith('Yes, record it'))
      if (at < 0) throw new Error(`No log to keep: ${shown.presented.title}`)
      return { keep: () => type(`> ${at + 1}`) }
    },
    async close() {
      await bot.close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

export const PLACE = 'site:"Plimmet Street House" area:"Front lawn"'
export const MIX = `/mix product:"Dunvarrow 2 SC" tank:"1/2" sprayer:"Hand can" ${PLACE} output:"1 gal/1000 ft2" line:"young-crab" rate:"0.25 fl oz/1000 ft2"`
const LOG = `/log product:"Dunvarrow 2 SC" amount:"0.125 fl oz" rate:"0.25 fl oz/1000 ft2" used:"0.5 gal" ${PLACE} coverage:"spots" spots:"other" ground:"500 ft2" weed:"crabgrass" sprayer:"Hand can" start:"7:30" end:"8:10" wind:"5 mph" wind_from:"NW" temperature:"72 F" humidity:"60" hands_washed:true unusual:false`
