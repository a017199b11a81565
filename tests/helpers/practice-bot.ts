import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { commands } from '#commands/index.ts'
import { type Bot, openBot } from '#src/bot.ts'
import { reply } from '#src/conversation/reply.ts'
import { asTyped } from '#src/conversation/text.ts'
import type { Command } from '#src/desk/command.ts'
import type { FetchFile } from '#src/desk/take-files.ts'
import { clockCommand } from '#src/messengers/room/clock-command.ts'
import { DEMO_CREW_KEY, seedDemo } from '#src/messengers/room/demo.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew } from '#src/store/crews.ts'
import type { DatabaseAddress } from '#src/store/open.ts'
import { write } from '#src/store/transaction.ts'
import { type Demo, loadDemo } from '../../data/demo/load.ts'
import { freshAddress } from './fresh-address.ts'

export interface PracticeBot {
  readonly bot: Bot
  readonly demo: Demo
  /** Whatever it has reported. */
  readonly errors: unknown[]
  /** For its files; goes when it is closed. */
  readonly folder: string
  close(): Promise<void>
}

/** The bot of the practice room with the demo crew in it, on a fresh store unless one is named. */
export async function openPracticeBot(parts: {
  readonly address?: DatabaseAddress | undefined
  readonly commands?: readonly Command[] | undefined
  readonly fetchFile: FetchFile
  readonly seededAtMs: number
}): Promise<PracticeBot> {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-practice-'))
  const errors: unknown[] = []
  const demo = loadDemo()
  const bot = await openBot({
    address: parts.address ?? (await freshAddress()),
    purpose: 'practice',
    filesFolder: path.join(folder, 'blobs'),
    zone: demo.crew.zone,
    commands: [...commands, ...(parts.commands ?? []), clockCommand],
    fetchFile: parts.fetchFile,
    reportError: (error) => errors.push(error),
    slowsFloods: false,
  })
  await seedDemo(bot.database, demo, demo.crew.zone, parts.seededAtMs)
  return {
    bot,
    demo,
    errors,
    folder,
    async close() {
      await bot.close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

/** Plans a message of these words to one person, as a reminder would be. */
export function planMessage(
  { database }: Bot,
  message: { readonly to: string; readonly text: string; readonly nowMs: number; readonly dueAtMs: number },
): Promise<void> {
  return write(database, async (db) => {
    const crew = await findCrew(db, DEMO_CREW_KEY)
    const store = crewStore(db, crew?.id ?? 0)
    const person = await store.people.find(message.to)
    await store.deliveries.plan(
      {
        personId: person?.id ?? 0,
        command: 'last',
        reply: reply('heads-up', asTyped(message.text), { audience: 'person' }),
        nonce: `test-${message.text}`,
        dueAtMs: message.dueAtMs,
      },
      message.nowMs,
    )
  })
}
