import { readFile } from 'node:fs/promises'
import path from 'node:path'
import { openBot, type ReportError } from '#src/bot.ts'
import type { Speaker } from '#src/conversation/ask.ts'
import type { Command } from '#src/desk/command.ts'
import { projectRoot } from '#src/project.ts'
import { addressOf, DEFAULT_ZONE, type Settings } from '#src/settings.ts'
import { loadDemo } from '../../../data/demo/load.ts'
import { type RoomArguments, readRoomArguments } from './arguments.ts'
import { clockCommand } from './clock-command.ts'
import { demoSpeaker, seedDemo } from './demo.ts'
import { runJsonLines } from './json-lines.ts'
import { practiceClock } from './practice-clock.ts'
import { runPrompt } from './prompt.ts'
import { openSession } from './session.ts'

/** Opens the practice room on the terminal with the demo crew in it, and returns when the input ends. */
export async function runRoom(parts: {
  readonly args: readonly string[]
  readonly settings: Settings
  readonly commands: readonly Command[]
  readonly reportError: ReportError
}): Promise<void> {
  const args = readRoomArguments(parts.args)
  const bot = await openBot({
    address: addressFor(args, parts.settings),
    purpose: 'practice',
    filesFolder: path.join(projectRoot(), '.data', 'practice-files'),
    zone: parts.settings.zone ?? DEFAULT_ZONE,
    commands: [...parts.commands, clockCommand],
    fetchFile: async (handle) => readFile(handle.url),
    reportError: parts.reportError,
    slowsFloods: false,
  })
  try {
    const clock = practiceClock(args.startMs, Date.now)
    const demo = loadDemo()
    const zone = parts.settings.zone ?? demo.crew.zone
    await seedDemo(bot.database, demo, zone, clock.nowMs())
    const speaker: Speaker = demoSpeaker(demo, args.as, args.locale)
    const session = openSession({ bot, clock, speaker, locale: args.locale })
    if (args.json)
      await runJsonLines({ bot, session, locale: args.locale, input: process.stdin, output: process.stdout })
    else
      await runPrompt({
        bot,
        session,
        speaker,
        locale: args.locale,
        input: process.stdin,
        output: process.stdout,
      })
  } finally {
    await bot.close()
  }
}

/** A script's room is new each time, unless it names a file; a person's room remembers. */
function addressFor(args: RoomArguments, settings: Settings) {
  if (args.database !== null) return addressOf(args.database)
  if (args.json) return addressOf('sqlite::memory:')
  return settings.database ?? addressOf(`sqlite:${path.join(projectRoot(), '.data', 'practice.sqlite')}`)
}
