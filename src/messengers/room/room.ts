import { once } from 'node:events'
import { readFile } from 'node:fs/promises'
import path from 'node:path'
import type { ReportError } from '#src/answering.ts'
import { type Bot, openBot } from '#src/bot.ts'
import { say } from '#src/conversation/text.ts'
import type { Command } from '#src/desk/command.ts'
import { projectRoot } from '#src/project.ts'
import type { Deliver } from '#src/reminders/deliver.ts'
import { addressOf, DEFAULT_ZONE, type Settings, SettingsError } from '#src/settings.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew } from '#src/store/crews.ts'
import { readOnly } from '#src/store/transaction.ts'
import { speak } from '#src/words/speak.ts'
import { loadDemo } from '../../../data/demo/load.ts'
import { type RoomArguments, readRoomArguments } from './arguments.ts'
import { clockCommand } from './clock-command.ts'
import { DEMO_CREW_KEY, demoSpeaker, seedDemo } from './demo.ts'
import { runJsonLines } from './json-lines.ts'
import type { Hub } from './page/hub.ts'
import { pokingBot } from './page/poking-bot.ts'
import type { Page, PageParts } from './page/serve.ts'
import type { Uploads } from './page/uploads.ts'
import { practiceClock } from './practice-clock.ts'
import { runPrompt } from './prompt.ts'
import { openSession } from './session.ts'

/**
 * Opens the practice room with the demo crew in it. On the terminal it returns when the input ends. With the page it
 * serves until the prompt is left; without a terminal, until it is told to end by a signal: an input that is empty
 * from the first moment, as under a service manager, ends nothing.
 */
export async function runRoom(parts: {
  readonly args: readonly string[]
  readonly settings: Settings
  readonly commands: readonly Command[]
  readonly reportError: ReportError
  readonly hasPage: boolean
}): Promise<void> {
  const args = readRoomArguments(parts.args)
  // A script reads its answers from the output, and nobody looks at a page meanwhile.
  const page = parts.hasPage && !args.json ? await openPageParts() : null
  const opened = await openBot({
    address: addressFor(args, parts.settings),
    purpose: 'practice',
    filesFolder: path.join(projectRoot(), '.data', 'practice-files'),
    zone: parts.settings.zone ?? DEFAULT_ZONE,
    commands: [...parts.commands, clockCommand],
    fetchFile: (handle, most) =>
      page?.isUpload(handle) ? page.uploads.fetch(handle, most) : readFile(handle.url),
    reportError: parts.reportError,
    slowsFloods: false,
  })
  const bot = page === null ? opened : pokingBot(page.hub, opened)
  let served: Page | null = null
  try {
    const clock = practiceClock(args.startMs, Date.now)
    const demo = loadDemo()
    const zone = parts.settings.zone ?? demo.crew.zone
    await seedDemo(bot.database, demo, zone, clock.nowMs())
    if (args.startMs === null) clock.forward(Math.max(0, (await newestMs(bot)) - clock.peekMs()))
    const speaker = demoSpeaker(demo, args.as, args.locale)
    const session = openSession({ bot, clock, speaker, locale: args.locale })
    const { stdin: input, stdout: output } = process
    if (args.json) return await runJsonLines({ bot, session, locale: args.locale, input, output })
    if (page !== null) {
      const deliver: Deliver = async (...sent) => {
        page.hub.poke()
        await session.hear(...sent)
      }
      served = await serveOn(page, parts.settings, { bot, demo, clock, zone, deliver })
      const address = { literal: served.address }
      output.write(`${speak(bot.words, say('room.page', { address }), { ...args, escape: plain })}\n`)
      if (!input.isTTY) return await untilSignal()
    }
    const nameOf = (personKey: string) => demo.people.find(({ key }) => key === personKey)?.name
    await runPrompt({ bot, session, speaker, locale: args.locale, nameOf, input, output })
  } finally {
    await served?.close()
    await bot.close()
  }
}

const plain = (typed: string) => typed

/** Loaded only when it is wanted: a script in the room needs no web server. */
async function openPageParts() {
  const [{ servePage }, { openHub }, { openUploads, isUpload }] = await Promise.all([
    import('./page/serve.ts'),
    import('./page/hub.ts'),
    import('./page/uploads.ts'),
  ])
  return { servePage, isUpload, hub: openHub(), uploads: openUploads() }
}

interface OpenedPage {
  readonly servePage: (parts: PageParts) => Promise<Page>
  readonly hub: Hub
  readonly uploads: Uploads
}

/** On the port that is set; on any free one where none is set and the usual one is taken. */
async function serveOn(
  { servePage, hub, uploads }: OpenedPage,
  settings: Settings,
  parts: Pick<PageParts, 'bot' | 'demo' | 'clock' | 'zone' | 'deliver'>,
): Promise<Page> {
  const host = settings.pageHost ?? '127.0.0.1'
  const at = { ...parts, hub, uploads, host, secret: settings.pageSecret }
  try {
    return await servePage({ ...at, port: settings.port })
  } catch (error) {
    if (!(error instanceof SettingsError) || settings.isPortSet || at.secret !== null) throw error
    return servePage({ ...at, port: 0 })
  }
}

/** When the newest answer was given: a clock that was moved forward before does not go back. */
async function newestMs(bot: Bot): Promise<number> {
  return readOnly(bot.database, async (db) => {
    const crew = await findCrew(db, DEMO_CREW_KEY)
    const [newest] = crew === undefined ? [] : await crewStore(db, crew.id).turns.listLatest(1)
    return newest?.createdAtMs ?? 0
  })
}

async function untilSignal(): Promise<void> {
  // Neither signal's listener alone keeps a process alive; the server does.
  await Promise.race(['SIGINT', 'SIGTERM'].map((signal) => once(process, signal)))
}

/** A script's room is new each time, unless it names a file; a person's room remembers. */
function addressFor(args: RoomArguments, settings: Settings) {
  if (args.database !== null) return addressOf(args.database)
  if (args.json) return addressOf('sqlite::memory:')
  return settings.database ?? addressOf(`sqlite:${path.join(projectRoot(), '.data', 'practice.sqlite')}`)
}
