import { mkdtempSync, rmSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { onTestFinished } from 'vitest'
import { commands } from '#commands/index.ts'
import { openBot } from '#src/bot.ts'
import { clockCommand } from '#src/messengers/room/clock-command.ts'
import { DEMO_CREW_KEY, demoSpeaker, seedDemo } from '#src/messengers/room/demo.ts'
import { practiceClock } from '#src/messengers/room/practice-clock.ts'
import { openSession, type Shown } from '#src/messengers/room/session.ts'
import type { ThemeName } from '#src/pictures/theme.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew } from '#src/store/crews.ts'
import { blobsNamed } from '#src/store/files.ts'
import { write } from '#src/store/transaction.ts'
import { freshAddress } from '#tests/helpers/fresh-address.ts'
import { loadDemo } from '../../data/demo/load.ts'

/** Monday, 4 May 2026, 9 in the morning where the demo crew works. */
export const MONDAY = '2026-05-04T09:00:00-04:00'

/** One reply as a crew member reads it. */
export interface Said {
  readonly outcome: string
  readonly title: string
  readonly lines: readonly string[]
  /** `outcome: title`, then the lines: what stands on the screen. */
  readonly screen: readonly string[]
  /** Value and unit of each fact, as text where it has a unit: `6.4 g`. */
  readonly facts: Readonly<Record<string, string | number | boolean>>
  readonly choices: readonly string[]
  readonly fields: readonly string[]
  readonly safety: readonly string[]
  readonly number: string | null
  readonly shown: Shown
}

/** One person of the demo crew at the practice room's prompt: types lines, and reads the reply to the last of them. */
export type Typing = (...lines: string[]) => Promise<Said>

export interface Room {
  as(who: string, locale?: string): Typing
  /** Moves the clock; everything that arrives meanwhile. */
  wait(line: string): Promise<readonly Said[]>
  /** Reads or changes the demo crew's rows beside the desk. */
  store<T>(work: (store: CrewStore) => Promise<T>): Promise<T>
  /** The bytes of a reply's pictures and papers, as the room would write them. */
  draw(
    said: Said,
    options?: { readonly theme?: ThemeName; readonly mostBytes?: number },
  ): Promise<Uint8Array[]>
  /** Hashes of the kept files that rows name. */
  blobs(): Promise<readonly string[]>
  /** Errors that a command did not expect. */
  readonly errors: readonly unknown[]
}

const demo = loadDemo()

/** A practice room on a fresh store with the demo crew in it; closed when the test is over, or as `whenOver` will have it. */
export async function openRoom(
  at = MONDAY,
  whenOver: (close: () => Promise<void>) => void = onTestFinished,
): Promise<Room> {
  const errors: unknown[] = []
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-commands-'))
  const bot = await openBot({
    address: await freshAddress(),
    purpose: 'practice',
    filesFolder: folder,
    zone: demo.crew.zone,
    commands: [...commands, clockCommand],
    fetchFile: async (handle) => readFile(handle.url),
    reportError: (error) => errors.push(error),
    slowsFloods: false,
  })
  whenOver(async () => {
    await bot.close()
    rmSync(folder, { recursive: true, force: true })
  })
  const clock = practiceClock(Date.parse(at), Date.now)
  await seedDemo(bot.database, demo, demo.crew.zone, clock.nowMs())
  return {
    errors,
    as(who, locale = 'en') {
      const session = openSession({ bot, clock, speaker: demoSpeaker(demo, who, locale), locale })
      return async (...lines) => {
        let last: Shown | undefined
        for (const line of lines) last = (await session.type(line)).at(-1)
        if (last === undefined) throw new Error('Nothing was typed')
        return said(last)
      }
    },
    async wait(line) {
      const session = openSession({ bot, clock, speaker: demoSpeaker(demo, 'lead', 'en'), locale: 'en' })
      return (await session.type(line)).map(said)
    },
    async draw({ shown }, options) {
      const { reply, zone } = shown.answered
      const drawn: Uint8Array[] = []
      const how = { locale: 'en', zone, mostBytes: 10_000_000, ...options }
      for (const file of reply.files)
        for await (const one of bot.draw(file, how)) drawn.push(await one.read())
      return drawn
    },
    blobs: () => write(bot.database, blobsNamed),
    store: (work) =>
      write(bot.database, async (db) => {
        const crew = await findCrew(db, DEMO_CREW_KEY)
        if (crew === undefined) throw new Error('The demo crew is gone')
        return work(crewStore(db, crew.id))
      }),
  }
}

/** A conversation as it stands on the screen: what was typed, then each reply with its choices and form. */
export async function onScreen(typing: Typing, ...lines: string[]): Promise<string> {
  const parts: string[] = []
  for (const line of lines) {
    const { screen, choices, fields } = await typing(line)
    parts.push(
      line,
      ...screen.flatMap((one) => one.split('\n')).map((one) => `    ${one}`),
      ...choices.map((label, at) => `    > ${at + 1} ${label}`),
      ...(fields.length === 0 ? [] : [`    = ${fields.join(', ')}`]),
    )
  }
  return `\n${parts.join('\n')}\n`
}

function said(shown: Shown): Said {
  const { outcome, title, lines, facts, choices, form, safety, number } = shown.presented
  return {
    outcome,
    title,
    lines,
    screen: [`${outcome}: ${title}`, ...lines],
    facts: Object.fromEntries(
      facts.map(({ name, value, unit }) => [name, unit === null ? value : `${value} ${unit}`]),
    ),
    choices: choices.map(({ label }) => label),
    fields: form?.fields.map(({ name }) => name) ?? [],
    safety: safety.map(({ text }) => text),
    number,
    shown,
  }
}
