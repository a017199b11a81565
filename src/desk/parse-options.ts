import { z } from 'zod'
import { say, type Text } from '#src/conversation/text.ts'
import type { Command, OptionMeta } from './command.ts'

export type ParsedOptions =
  | { readonly ok: true; readonly options: Readonly<Record<string, unknown>> }
  | { readonly ok: false; readonly problems: readonly Text[] }

/** Metadata that an option's schema carries, also through `.optional()`. */
export function metaOf(schema: z.core.$ZodType): OptionMeta & { readonly aliases?: readonly string[] } {
  const own = z.globalRegistry.get(schema)
  if (own !== undefined) return own as OptionMeta & { readonly aliases?: readonly string[] }
  return schema instanceof z.ZodOptional ? metaOf(schema.unwrap()) : {}
}

/** Options as the command's schema wants them, or every problem at once. Crews' other words are understood. */
export function parseOptions(command: Command, raw: Readonly<Record<string, unknown>>): ParsedOptions {
  const names = aliasesOf(command)
  const named: Record<string, unknown> = {}
  for (const [name, value] of Object.entries(raw)) named[names.get(name) ?? name] = trimmed(value)
  const parsed = command.options.safeParse(named)
  if (parsed.success) return { ok: true, options: parsed.data }
  return { ok: false, problems: parsed.error.issues.flatMap((issue) => problemsOf(command, issue, named)) }
}

const aliasesKnown = new WeakMap<Command, ReadonlyMap<string, string>>()

function aliasesOf(command: Command): ReadonlyMap<string, string> {
  const known = aliasesKnown.get(command)
  if (known !== undefined) return known
  const aliases = new Map<string, string>()
  for (const [name, schema] of Object.entries(command.options.shape))
    for (const alias of metaOf(schema).aliases ?? []) aliases.set(alias, name)
  aliasesKnown.set(command, aliases)
  return aliases
}

function trimmed(value: unknown): unknown {
  return typeof value === 'string' ? value.trim() : value
}

function problemsOf(
  command: Command,
  issue: z.core.$ZodIssue,
  given: Readonly<Record<string, unknown>>,
): Text[] {
  if (issue.code === 'unrecognized_keys')
    return issue.keys.map((option) =>
      say('desk.option-unknown', {
        option,
        allowed: { all: Object.keys(command.options.shape), join: 'and' },
      }),
    )
  const option = String(issue.path[0] ?? '')
  if (given[option] === undefined) return [say('desk.option-missing', { option })]
  if (issue.code === 'invalid_value')
    return [say('desk.option-choice', { option, allowed: { all: issue.values.map(String), join: 'or' } })]
  if (issue.code === 'too_big' && typeof given[option] === 'string')
    return [say('desk.option-long', { option, most: Number(issue.maximum) })]
  if (issue.code === 'too_small' && given[option] === '') return [say('desk.option-missing', { option })]
  return [say('desk.option-wrong', { option })]
}
