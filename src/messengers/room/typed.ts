import { z } from 'zod'
import { type Ask, type FileHandle, type OptionValue, UNREADABLE } from '#src/conversation/ask.ts'
import type { Reply } from '#src/conversation/reply.ts'
import { writeToken } from '#src/conversation/token.ts'
import type { Command } from '#src/desk/command.ts'
import { metaOf } from '#src/desk/parse-options.ts'
import type { Registry } from '#src/desk/registry.ts'
import { type Line, readLine, readValues, waitMs } from './line.ts'

type Bare<Kind extends Ask['kind']> = Omit<Extract<Ask, { kind: Kind }>, 'id' | 'by' | 'atMs'>

/** A request without who makes it, when, and under which id. */
export type Wanted = Bare<'run'> | Bare<'press'> | Bare<'submit'>

/** What somebody wants who typed a line: nothing, time to pass, or an answer. */
export type Typed =
  | { readonly kind: 'nothing' }
  | { readonly kind: 'wait'; readonly ms: number }
  /** The last answer once more, in this language. */
  | { readonly kind: 'language'; readonly language: string }
  | { readonly kind: 'ask'; readonly wanted: Wanted }

/** What a line is read beside: the commands, the answer that stands before it, and where files are found. */
export interface Beside {
  readonly registry: Registry
  readonly last: { readonly turnId: number | null; readonly reply: Reply } | null
  /** The file that a typed name means; null where none is meant, which leaves the text for the desk to refuse. */
  readonly fileNamed: (name: string) => Promise<FileHandle | null>
}

/** A line that is too long to be one is only heard so far. */
const MOST_HEARD = 8_000

const run = (command: string, options: Record<string, OptionValue>): Typed => ({
  kind: 'ask',
  wanted: { kind: 'run', command, options },
})

/** What could not be read is passed on all the same: it may hold words of exposure. */
const malformed = (text: string) => run(UNREADABLE, { text: text.slice(0, MOST_HEARD) })

/** Reads one line of the practice room. Never throws for what somebody typed. */
export async function readTyped(text: string, beside: Beside): Promise<Typed> {
  const line = readLine(text)
  if (line.kind === 'nothing') return line
  if (line.kind === 'malformed') return malformed(text)
  if (line.kind === 'run') return readCommand(line, beside)
  if (line.kind === 'submit') return readSubmit(line.rest, beside)
  if (line.kind === 'language') return beside.last === null ? malformed(text) : line
  if (line.kind === 'wait') return { kind: 'wait', ms: waitMs(line) }
  const turnId = beside.last?.turnId
  if (!turnId || line.choice > (beside.last?.reply.choices.length ?? 0)) return malformed(text)
  return { kind: 'ask', wanted: { kind: 'press', token: writeToken({ turnId, choice: line.choice }) } }
}

async function readCommand(line: Extract<Line, { kind: 'run' }>, beside: Beside): Promise<Typed> {
  const found = findCommand(beside.registry, line.words)
  if (found === null)
    return run(line.words.toLowerCase(), line.rest === '' ? {} : { text: `${line.words} ${line.rest}` })
  const { command, left } = found
  const schemas = schemasOf(command)
  const values = readValues(`${left} ${line.rest}`, new Set(schemas.keys()))
  if (!values.ok) return malformed(`${left} ${line.rest}`)
  const options: Record<string, OptionValue> = {}
  for (const [name, value] of Object.entries(values.values)) {
    const schema = schemas.get(name)
    const handle = schema !== undefined && metaOf(schema).file ? await beside.fileNamed(value) : null
    options[name] = handle ?? (schema === undefined ? value : asTyped(schema, value))
  }
  return run(command.name, options)
}

async function readSubmit(rest: string, { last, fileNamed }: Beside): Promise<Typed> {
  const form = last?.reply.form
  const turnId = last?.turnId
  if (!form || !turnId) return malformed(rest)
  const known = new Set(form.fields.map((field) => field.name))
  const values = readValues(rest, known)
  if (!values.ok) return malformed(rest)
  // A name that the form does not have goes along, and the desk says so.
  const stray = Object.entries(values.values).filter(([name]) => !known.has(name))
  const fields: Bare<'submit'>['fields'] = Object.fromEntries(stray)
  for (const field of form.fields) {
    const typed = values.values[field.name]
    if (field.kind === 'file') {
      const handle = typed === undefined ? null : await fileNamed(typed)
      if (handle !== null) fields[field.name] = [handle]
    } else if (field.kind === 'choices')
      fields[field.name] = (typed ?? field.value ?? '').split(/\s*[;,]\s*/).filter((one) => one !== '')
    else fields[field.name] = typed ?? field.value ?? ''
  }
  return {
    kind: 'ask',
    wanted: { kind: 'submit', token: writeToken({ turnId, choice: 'form' }), fields },
  }
}

/** `site add name:…`: the longest command name that the words begin with; or the first word of a group alone. */
function findCommand(
  registry: Registry,
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

/** A typed text as the type that the schema wants; what does not fit stays text, for the desk to refuse. */
export function asTyped(schema: z.core.$ZodType, value: string): OptionValue {
  const inner = schema instanceof z.ZodOptional ? schema.unwrap() : schema
  if (inner instanceof z.ZodNumber && value !== '' && Number.isFinite(Number(value))) return Number(value)
  if (inner instanceof z.ZodBoolean) {
    if (/^(yes|y|true|on|s[ií]|1)$/i.test(value)) return true
    if (/^(no|n|false|off|0)$/i.test(value)) return false
  }
  return value
}
