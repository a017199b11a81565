import { createInterface } from 'node:readline/promises'
import type { Readable, Writable } from 'node:stream'
import type { Bot } from '#src/bot.ts'
import type { Speaker } from '#src/conversation/ask.ts'
import { say } from '#src/conversation/text.ts'
import { speak } from '#src/words/speak.ts'
import { complete } from './complete.ts'
import { paint } from './paint.ts'
import type { RoomSession } from './session.ts'

/** Longer lines are hard to read, however wide the terminal is. */
const MOST_WIDE = 100

/** What the terminal takes now: it may have been made narrower meanwhile. */
const widthOf = (output: Writable & { readonly columns?: number }) =>
  Math.min(MOST_WIDE, Math.max(output.columns || MOST_WIDE, 20))

/** The practice room for a person: completion with Tab, history with the arrows, `?` for help, numbers for choices. */
export async function runPrompt(parts: {
  readonly bot: Bot
  readonly session: RoomSession
  readonly speaker: Speaker
  readonly locale: string
  /** Names of the demo crew by key, for messages that reached somebody else. */
  readonly nameOf?: (personKey: string) => string | undefined
  readonly input: Readable
  readonly output: Writable
}): Promise<void> {
  const { bot, session, speaker, output } = parts
  const inWords = (id: string, parameters = {}) =>
    speak(bot.words, say(id, parameters), { locale: parts.locale, escape: (typed) => typed })
  const prompt = createInterface({
    input: parts.input,
    output,
    completer: (line: string) => complete(bot, speaker, line),
    historySize: 500,
    prompt: `${speaker.personName}> `,
  })
  output.write(`${inWords('room.welcome', { name: speaker.personName })}\n${inWords('room.help')}\n`)
  prompt.prompt()
  // It stands above the line that is being typed, which comes back with what is on it.
  const stopHearing = session.onHeard(({ presented }) => {
    output.write(`\n${paint(presented, { width: widthOf(output) })}`)
    prompt.prompt(true)
  })
  for await (const line of prompt) {
    const typed = line.trim()
    if (/^(exit|quit|salir)$/i.test(typed)) break
    if (typed === '?') output.write(`${help(bot, inWords)}\n`)
    else if (typed === 'w') showWorking(session, output)
    else
      for (const { presented, toKey } of await session.type(/^\d{1,2}$/.test(typed) ? `> ${typed}` : typed)) {
        if (toKey !== undefined)
          output.write(`${inWords('room.only-to', { name: parts.nameOf?.(toKey) ?? toKey })}\n`)
        output.write(paint(presented, { width: widthOf(output) }))
      }
    prompt.prompt()
  }
  stopHearing()
  prompt.close()
}

function showWorking(session: RoomSession, output: Writable): void {
  if (session.last !== null)
    output.write(paint(session.last.presented, { width: widthOf(output), working: true }))
}

function help(bot: Bot, inWords: (id: string) => string): string {
  const lines = [...bot.registry.values()].map((command) => {
    const options = Object.keys(command.options.shape).map((name) => `${name}:`)
    return `/${command.name} ${options.join(' ')}\n    ${inWords(`command.${command.name.replace(' ', '-')}`)}`
  })
  return [inWords('room.help'), ...lines].join('\n')
}
