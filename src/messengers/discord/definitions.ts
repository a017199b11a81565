import {
  type APIApplicationCommandBasicOption,
  type APIApplicationCommandOption,
  ApplicationCommandType,
  ApplicationIntegrationType,
  InteractionContextType,
  ApplicationCommandOptionType as Kind,
  type RESTPostAPIChatInputApplicationCommandsJSONBody,
} from 'discord.js'
import type { Command } from '#src/desk/command.ts'
import type { Registry } from '#src/desk/registry.ts'
import type { Catalogue } from '#src/words/catalogue.ts'
import { type OptionSpec, optionsOf } from '../option-shapes.ts'
import { cutText } from './cut.ts'
import { oneLine } from './escape.ts'
import { COMMAND } from './limits.ts'
import { describe, isName, localizedNames } from './localize.ts'

export type Definition = RESTPostAPIChatInputApplicationCommandsJSONBody

/** Commands that the platform cannot take; each problem says what to mend. */
export class RegistrationError extends Error {
  override readonly name = 'RegistrationError'
  constructor(readonly problems: readonly string[]) {
    super(`Cannot register the commands:\n${problems.map((problem) => `- ${problem}`).join('\n')}`)
  }
}

/** Descriptions are shortened by these steps until a command is within 8,000 characters. */
const DESCRIPTION_STEPS = [COMMAND.description, 80, 60, 40, 20, 1]

/** All commands as the platform wants them: made of schemas and catalogues. @throws RegistrationError, OptionError */
export function defineAll(registry: Registry, words: Catalogue): Definition[] {
  const groups = groupsOf(registry)
  const definitions = [...groups].map(([name, commands]) => defineWithin(name, commands, words))
  const problems = definitions.flatMap(problemsOf)
  if (definitions.length > COMMAND.commands)
    problems.push(`${definitions.length} commands: at most ${COMMAND.commands}`)
  for (const [name, commands] of groups)
    if (commands.length > 1 && commands.some((command) => command.name === name))
      problems.push(`/${name}: it cannot be run itself and have subcommands too`)
  for (const { name } of registry.values())
    if (name.split(' ').length > 2) problems.push(`/${name}: at most two words`)
  if (problems.length > 0) throw new RegistrationError(problems)
  return definitions
}

/** Commands by their first word: two-word ones become subcommands of one command. */
function groupsOf(registry: Registry): Map<string, Command[]> {
  const groups = new Map<string, Command[]>()
  for (const command of registry.values()) {
    const first = command.name.split(' ')[0] ?? ''
    groups.set(first, [...(groups.get(first) ?? []), command])
  }
  return groups
}

function defineWithin(name: string, commands: readonly Command[], words: Catalogue): Definition {
  let made = defineOne(name, commands, { words, most: COMMAND.description })
  for (const most of DESCRIPTION_STEPS.slice(1)) {
    if (countCharacters(made as Countable) <= COMMAND.characters) break
    made = defineOne(name, commands, { words, most })
  }
  return made
}

interface Wording {
  readonly words: Catalogue
  /** Longest description. */
  readonly most: number
}

function defineOne(name: string, commands: readonly Command[], { words, most }: Wording): Definition {
  const single = commands.length === 1 && commands[0]?.name === name ? commands[0] : null
  const ids = single === null ? [`command-group.${name}`] : [`command.${name}`]
  return {
    type: ApplicationCommandType.ChatInput,
    name,
    name_localizations: localizedNames(words, `command-name.${name}`),
    ...describe(words, ids, name, most),
    options:
      single === null
        ? commands.map((command) => defineSubcommand(command, { words, most }))
        : defineOptions(single, { words, most }),
    default_member_permissions: null,
    contexts: [InteractionContextType.Guild, InteractionContextType.BotDM],
    integration_types: [ApplicationIntegrationType.GuildInstall],
    nsfw: false,
  }
}

const idOf = (command: Command) => command.name.replaceAll(' ', '-')

function defineSubcommand(command: Command, wording: Wording): APIApplicationCommandOption {
  const name = command.name.split(' ')[1] ?? ''
  return {
    type: Kind.Subcommand,
    name,
    name_localizations: localizedNames(wording.words, `command-name.${idOf(command)}`),
    ...describe(wording.words, [`command.${idOf(command)}`], name, wording.most),
    options: defineOptions(command, wording),
  }
}

function defineOptions(command: Command, wording: Wording): APIApplicationCommandBasicOption[] {
  const taken = new Map<string, Set<string>>()
  const all = Object.keys(command.options.shape)
  return optionsOf(command.options).map((option) => {
    const made = defineOption(command, option, wording)
    // No two options may have one name in a language: the later one keeps its own name there.
    const names = Object.entries(made.name_localizations ?? {}).filter(([locale, name]) => {
      if (name !== option.name && all.includes(name ?? '')) return false
      const known = taken.get(locale) ?? new Set<string>()
      taken.set(locale, known)
      return name !== null && known.size !== known.add(name).size
    })
    return { ...made, name_localizations: names.length === 0 ? null : Object.fromEntries(names) }
  })
}

function defineOption(
  command: Command,
  option: OptionSpec,
  { words, most }: Wording,
): APIApplicationCommandBasicOption {
  const { name, required, shape } = option
  const ids = [`command.${idOf(command)}.${name}`, `option.${name}`]
  const base = {
    name,
    name_localizations: localizedNames(words, `option-name.${name}`),
    ...describe(words, ids, name, most),
    required,
  }
  switch (shape.kind) {
    case 'text':
      return {
        ...base,
        type: Kind.String,
        ...(shape.suggests ? { autocomplete: true } : {}),
        ...bound('min_length', shape.least, COMMAND.textLength),
        ...bound('max_length', shape.most, COMMAND.textLength),
      }
    case 'choice':
      if (shape.values.length > COMMAND.choices) return { ...base, type: Kind.String }
      return {
        ...base,
        type: Kind.String,
        choices: shape.values.map((value) => choiceOf(words, name, value)),
      }
    case 'integer':
      return { ...base, type: Kind.Integer, ...range(shape) }
    case 'number':
      return { ...base, type: Kind.Number, ...range(shape) }
    case 'boolean':
      return { ...base, type: Kind.Boolean }
    case 'file':
      return { ...base, type: Kind.Attachment }
    case 'role':
      return { ...base, type: Kind.Role }
    default:
      return shape satisfies never
  }
}

const range = ({ least, most }: { readonly least: number | null; readonly most: number | null }) => ({
  ...(least === null ? {} : { min_value: least }),
  ...(most === null ? {} : { max_value: most }),
})

const bound = (key: 'min_length' | 'max_length', value: number | null, most: number) =>
  value === null || value > most || (key === 'max_length' && value < 1) ? {} : { [key]: value }

function choiceOf(words: Catalogue, option: string, value: string) {
  const { description, description_localizations } = describe(
    words,
    [`option-choice.${option}.${value}`],
    value,
    COMMAND.choiceName,
  )
  return {
    name: cutText(description, COMMAND.choiceName) || value,
    name_localizations: description_localizations,
    value,
  }
}

type Countable = {
  readonly name: string
  readonly description?: string
  readonly value?: string | number
  readonly name_localizations?: object | null
  readonly description_localizations?: object | null
  readonly options?: readonly Countable[]
  readonly choices?: readonly Countable[]
}

/** Characters of names, descriptions and values of a command and all below it; the longest language counts. */
export function countCharacters(one: Countable): number {
  const longest = (text: string, map: object | null | undefined) =>
    Math.max(text.length, ...Object.values(map ?? {}).map((other) => String(other ?? '').length))
  const nested = [...(one.options ?? []), ...(one.choices ?? [])]
  return (
    longest(one.name, one.name_localizations) +
    longest(one.description ?? '', one.description_localizations) +
    String(one.value ?? '').length +
    nested.reduce((sum, each) => sum + countCharacters(each), 0)
  )
}

function problemsOf(definition: Definition): string[] {
  const problems: string[] = []
  const check = (one: { name: string; options?: readonly APIApplicationCommandOption[] }, path: string) => {
    const options = one.options ?? []
    if (!isName(one.name))
      problems.push(`${path}: the name may hold only small letters, digits, - and _, at most 32`)
    if (options.length > COMMAND.options)
      problems.push(`${path}: ${options.length} options, at most ${COMMAND.options}`)
    if (new Set(options.map((option) => option.name)).size < options.length)
      problems.push(`${path}: two options with one name`)
    for (const option of options) {
      check(option as typeof one, `${path} ${oneLine(option.name)}`)
      const choices = 'choices' in option ? (option.choices ?? []) : []
      if (choices.some(({ value }) => String(value).length > COMMAND.choiceValue || String(value) === ''))
        problems.push(`${path} ${option.name}: a choice may have 1 to ${COMMAND.choiceValue} characters`)
    }
  }
  check(
    definition as { name: string; options?: readonly APIApplicationCommandOption[] },
    `/${definition.name}`,
  )
  const characters = countCharacters(definition as Countable)
  if (characters > COMMAND.characters)
    problems.push(`/${definition.name}: ${characters} characters, at most ${COMMAND.characters}`)
  return problems
}
