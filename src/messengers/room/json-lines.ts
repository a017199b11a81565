import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { createInterface } from 'node:readline'
import type { Readable, Writable } from 'node:stream'
import type { Bot } from '#src/bot.ts'
import { roomObject } from './object.ts'
import type { RoomSession } from './session.ts'

/** One request a line in, one JSON object a line out, in order, until the input ends. */
export async function runJsonLines(parts: {
  readonly bot: Bot
  readonly session: RoomSession
  readonly locale: string
  readonly input: Readable
  readonly output: Writable
}): Promise<void> {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-room-'))
  for await (const line of createInterface({ input: parts.input, crlfDelay: Number.POSITIVE_INFINITY })) {
    for (const shown of await parts.session.type(line)) {
      const object = await roomObject(parts.bot, shown, parts.locale, folder)
      await write(parts.output, `${JSON.stringify(object)}\n`)
    }
  }
}

function write(output: Writable, text: string): Promise<void> {
  return new Promise((done, fail) => output.write(text, (error) => (error ? fail(error) : done())))
}
