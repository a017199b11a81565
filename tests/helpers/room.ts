import { readFile } from 'node:fs/promises'
import { onTestFinished } from 'vitest'
import type { Bot } from '#src/bot.ts'
import type { Command } from '#src/desk/command.ts'
import { demoSpeaker } from '#src/messengers/room/demo.ts'
import { roomObject } from '#src/messengers/room/object.ts'
import { practiceClock } from '#src/messengers/room/practice-clock.ts'
import { openSession, type RoomSession } from '#src/messengers/room/session.ts'
import type { DatabaseAddress } from '#src/store/open.ts'
import { NOON_MS } from './asks.ts'
import { openPracticeBot } from './practice-bot.ts'
import { resultOf, startProcess } from './processes.ts'
import { RoomLine } from './room-object.ts'

export interface TestRoom {
  readonly bot: Bot
  readonly session: RoomSession
  readonly errors: unknown[]
  /** Types a line and reads what the room would write for it. */
  type(line: string): Promise<RoomLine[]>
  /** The same for a line with one answer. */
  ask(line: string): Promise<RoomLine>
  /** Another person in the same room. */
  as(who: string, locale?: string): Omit<TestRoom, 'as'>
}

export interface RoomParts {
  readonly address?: DatabaseAddress
  readonly as?: string
  readonly locale?: string
  readonly commands?: readonly Command[]
}

/** The practice room in this process, on the demo crew; closed with the test. */
export async function openRoom(parts: RoomParts = {}): Promise<TestRoom> {
  const { bot, demo, errors, folder, close } = await openPracticeBot({
    ...parts,
    fetchFile: ({ url }) => readFile(url),
    seededAtMs: NOON_MS,
  })
  onTestFinished(close)
  const clock = practiceClock(NOON_MS, Date.now)
  const person = (who: string, locale = 'en') => {
    const session = openSession({ bot, clock, speaker: demoSpeaker(demo, who, locale), locale })
    const type = async (line: string) => {
      const shown = await session.type(line)
      return Promise.all(shown.map(async (one) => RoomLine.parse(await roomObject(bot, one, locale, folder))))
    }
    return { bot, session, errors, type, ask: async (line: string) => only(await type(line)) }
  }
  return { ...person(parts.as ?? 'lead', parts.locale), as: person }
}

function only(lines: readonly RoomLine[]): RoomLine {
  const [line] = lines
  if (line === undefined || lines.length > 1) throw new Error(`Cannot read one answer from ${lines.length}`)
  return line
}

export interface RoomRun {
  readonly lines: RoomLine[]
  readonly status: number | null
  readonly errors: string
}

/** Starts the room as a process of its own, types these lines, and waits for its end. */
export async function runRoom(input: readonly string[], args: readonly string[] = []): Promise<RoomRun> {
  const child = startProcess('src/main.ts', ['room', '--json', ...args])
  child.stdin.end(input.map((line) => `${line}\n`).join(''))
  const { output, errors, status } = await resultOf(child)
  const lines = output.split('\n').filter((line) => line !== '')
  return { lines: lines.map((line) => RoomLine.parse(JSON.parse(line))), status, errors }
}
