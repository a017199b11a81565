import { z } from 'zod'
import { StoredFile } from '#src/conversation/ask.ts'
import { readToken } from '#src/conversation/token.ts'
import type { ShownTurn } from '#src/store/turns.ts'
import { type InWords, oneLine } from './in-words.ts'

/** What is kept of a question, as far as the page shows it. */
const Asked = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('run'), command: z.string(), options: z.record(z.string(), z.unknown()) }),
  z.object({ kind: z.literal('press'), token: z.string() }),
  z.object({ kind: z.literal('submit'), token: z.string() }),
  z.object({ kind: z.literal('deliver') }),
])

const LONGEST = 300

/** A question as it would be typed, or what stood on the button; empty for what nobody asked. */
export function sayAsked(
  turn: ShownTurn,
  byId: ReadonlyMap<number, ShownTurn>,
  inWords: InWords,
  unreadable: string,
): string {
  const asked = Asked.safeParse(JSON.parse(turn.asked))
  if (!asked.success || asked.data.kind === 'deliver') return ''
  const { data } = asked
  if (data.kind === 'run') {
    if (data.command === unreadable) return shorten(String(data.options.text ?? ''))
    const options = Object.entries(data.options).map(([name, value]) => `${name}:${quoted(value)}`)
    return shorten([`/${data.command}`, ...options].join(' '))
  }
  const token = readToken(data.token)
  const pressed = token === null ? undefined : byId.get(token.turnId)
  if (token === null || pressed === undefined || !mayName(pressed, turn)) return ''
  const before = pressed.reply
  if (token.choice === 'form') return before.form === null ? '' : shorten(inWords(before.form.title))
  const label = before.choices[token.choice - 1]?.label
  return label === undefined ? '' : shorten(inWords(label))
}

/** What stood on a button of somebody else's private answer is not told to whoever named that button. */
function mayName(pressed: ShownTurn, turn: ShownTurn): boolean {
  return pressed.personId === turn.personId || pressed.reply.audience === 'crew'
}

function quoted(value: unknown): string {
  const file = StoredFile.safeParse(value)
  if (file.success) return file.data.name
  return typeof value === 'string' && !/^[\w./%-]+$/.test(value) ? `"${value}"` : String(value)
}

function shorten(text: string): string {
  const line = oneLine(text)
  return line.length <= LONGEST ? line : `${line.slice(0, LONGEST - 1).trimEnd()}…`
}
