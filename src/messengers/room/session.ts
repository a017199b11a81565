import { randomUUID } from 'node:crypto'
import { stat } from 'node:fs/promises'
import path from 'node:path'
import { z } from 'zod'
import type { Bot } from '#src/bot.ts'
import { type Ask, type OptionValue, type Speaker, UNREADABLE } from '#src/conversation/ask.ts'
import { writeToken } from '#src/conversation/token.ts'
import type { Command } from '#src/desk/command.ts'
import type { Answered } from '#src/desk/desk.ts'
import { metaOf } from '#src/desk/parse-options.ts'
import { type Presented, present } from '#src/messengers/present.ts'
import { sendAll } from '#src/reminders/send-all.ts'
import { type Line, readLine, readValues, waitMs } from './line.ts'
import type { PracticeClock } from './practice-clock.ts'
import { workMornings } from './work-mornings.ts'

/** What the room shows for one line: one reply, or several when the clock was moved. */
export interface Shown {
  readonly answered: Answered
  readonly presented: Presented
}

export interface RoomSession {
  /** Answers one typed line. Never throws for what somebody typed. */
  type(text: string): Promise<readonly Shown[]>
  readonly last: Shown | null
}

/** A line that is too long to be one is only heard so far. */
const MOST_HEARD = 8_000

/** One person in the practice room, with the last reply in front of them. */
export function openSession(parts: {
  readonly bot: Bot
  readonly clock: PracticeClock
  readonly speaker: Speaker
  readonly locale: string
}): RoomSession {
  const { bot, clock, speaker } = parts
  let last: Shown | null = null

  const show = (answered: Answered, locale = parts.locale): Shown => ({
    answered,
    presented: present(bot.words, answered, { locale, escape: (typed) => typed }),
  })
  const base = () => ({ id: randomUUID(), by: speaker, atMs: clock.nowMs() })
  const answer = async (ask: Ask) => {
    last = show(await bot.desk.answer(ask))
    return [last]
  }
  const run = (command: string, options: Record<string, OptionValue>) =>
    answer({ ...base(), kind: 'run', command, options })
  /** What could not be read is passed on all the same: it may hold words of exposure. */
  const malformed = (text: string) => run(UNREADABLE, { text: text.slice(0, MOST_HEARD) })

  async function typeCommand(line: Extract<Line, { kind: 'run' }>): Promise<readonly Shown[]> {
    const found = findCommand(bot.registry, line.words)
    if (found === null)
      return run(line.words.toLowerCase(), line.rest === '' ? {} : { text: `${line.words} ${line.rest}` })
    const { command, left } = found
    const schemas = schemasOf(command)
    const values = readValues(`${left} ${line.rest}`, new Set(schemas.keys()))
    if (!values.ok) return malformed(`${left} ${line.rest}`)
    return run(command.name, await optionsOf(schemas, values.values))
  }

  async function submit(rest: string): Promise<readonly Shown[]> {
    const form = last?.answered.reply.form
    const turnId = last?.answered.turnId
    if (!form || !turnId) return malformed(rest)
    const values = readValues(rest, new Set(form.fields.map((field) => field.name)))
    if (!values.ok) return malformed(rest)
    const fields: Record<string, string | string[] | []> = {}
    for (const field of form.fields) {
      const typed = values.values[field.name]
      if (field.kind === 'file') {
        const handle = typed === undefined ? null : await handleOf(typed)
        if (handle !== null) (fields as Record<string, unknown>)[field.name] = [handle]
      } else if (field.kind === 'choices')
        fields[field.name] = (typed ?? field.value ?? '').split(/\s*[;,]\s*/).filter((one) => one !== '')
      else fields[field.name] = typed ?? field.value ?? ''
    }
    const token = writeToken({ turnId, choice: 'form' })
    return answer({ ...base(), kind: 'submit', token, fields: fields as never })
  }

  async function wait(line: Extract<Line, { kind: 'wait' }>): Promise<readonly Shown[]> {
    const fromMs = clock.nowMs()
    clock.forward(waitMs(line))
    const toMs = clock.nowMs()
    const due: Shown[] = []
    let sent = 0
    for (const nowMs of [...(await workMornings(bot.database, speaker.crewKey, { fromMs, toMs })), toMs])
      sent += await sendAll({
        database: bot.database,
        nowMs,
        registry: bot.registry,
        chooseSafety: bot.chooseSafety,
        reportError: bot.reportError,
        deliver: async (_address, answered) => {
          due.push(show(answered))
        },
      })
    const moved = await run('clock', { due: sent })
    last = due.at(-1) ?? last
    return [...moved, ...due]
  }

  return {
    get last() {
      return last
    },
    async type(text) {
      const line = readLine(text)
      if (line.kind === 'nothing') return []
      if (line.kind === 'malformed') return malformed(text)
      if (line.kind === 'run') return typeCommand(line)
      if (line.kind === 'submit') return submit(line.rest)
      if (line.kind === 'wait') return wait(line)
      if (line.kind === 'language')
        return last === null ? malformed(text) : [show(last.answered, line.language)]
      const turnId = last?.answered.turnId
      if (!turnId || line.choice > (last?.answered.reply.choices.length ?? 0)) return malformed(text)
      return answer({ ...base(), kind: 'press', token: writeToken({ turnId, choice: line.choice }) })
    },
  }
}

/** `site add name:…`: the longest command name that the words begin with; or the first word of a group alone. */
function findCommand(
  registry: Bot['registry'],
  words: string,
): { readonly command: Command; readonly left: string } | null {
  const all = words.split(/\s+/)
  for (let count = Math.min(2, all.length); count > 0; count--) {
    const command = registry.get(all.slice(0, count).join(' ').toLowerCase())
    if (command !== undefined) return { command, left: all.slice(count).join(' ') }
  }
  const [first = ''] = all
  const command = [...registry.values()].find(
    ({ name, alone }) => alone === true && name.startsWith(`${first.toLowerCase()} `),
  )
  return command === undefined ? null : { command, left: all.slice(1).join(' ') }
}

/** Schemas of the options by every name that is understood. */
function schemasOf(command: Command): ReadonlyMap<string, z.core.$ZodType> {
  const options = Object.entries(command.options.shape)
  return new Map(
    options.flatMap(([name, schema]) =>
      [name, ...(metaOf(schema).aliases ?? [])].map((known) => [known, schema] as const),
    ),
  )
}

/** Typed texts as the types that the command's schema wants; what does not fit stays text, for the desk to refuse. */
async function optionsOf(
  schemas: ReadonlyMap<string, z.core.$ZodType>,
  typed: Readonly<Record<string, string>>,
): Promise<Record<string, OptionValue>> {
  const options: Record<string, OptionValue> = {}
  for (const [name, value] of Object.entries(typed)) {
    const schema = schemas.get(name)
    const handle = schema !== undefined && metaOf(schema).file ? await handleOf(value) : null
    options[name] = handle ?? (schema === undefined ? value : asTyped(schema, value))
  }
  return options
}

function asTyped(schema: z.core.$ZodType, value: string): OptionValue {
  const inner = schema instanceof z.ZodOptional ? schema.unwrap() : schema
  if (inner instanceof z.ZodNumber && value !== '' && Number.isFinite(Number(value))) return Number(value)
  if (inner instanceof z.ZodBoolean) {
    if (/^(yes|y|true|on|s[ií]|1)$/i.test(value)) return true
    if (/^(no|n|false|off|0)$/i.test(value)) return false
  }
  return value
}

/** A file on this machine, as a handle. */
async function handleOf(file: string) {
  const found = path.resolve(file)
  const bytes = await stat(found).then(
    (one) => (one.isFile() ? one.size : -1),
    () => -1,
  )
  const type = found.endsWith('.json') ? 'application/json' : 'application/octet-stream'
  return { name: path.basename(found), type, bytes: Math.max(bytes, 0), url: found }
}
