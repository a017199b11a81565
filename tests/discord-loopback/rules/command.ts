import { ApplicationCommandType } from 'discord-api-types/v10'
import { anything, choice, isObject, type Json, list, maybe, objectsOf, shape, text, truth } from './check.ts'
import { checkOptions, localizations, naming, TOP_LEVEL } from './command-options.ts'
import type { Findings, Path } from './findings.ts'

/** Counts and lengths: Discord developer docs, interactions/application-commands. */
export const COMMAND_CHARACTERS = 8000

/** The longest of a text and its localizations is what counts. */
const longest = (base: unknown, localized: unknown) =>
  Math.max(
    String(base ?? '').length,
    ...Object.values(isObject(localized) ? localized : {}).map((each) => String(each ?? '').length),
  )

/** Characters that count toward the 8000 of one command: names, descriptions and values at every level. */
export function commandLength(one: Json): number {
  const own =
    longest(one.name, one.name_localizations) + longest(one.description, one.description_localizations)
  const choices = objectsOf(one.choices).reduce(
    (sum, each) => sum + longest(each.name, each.name_localizations) + String(each.value ?? '').length,
    0,
  )
  return objectsOf(one.options).reduce((sum, each) => sum + commandLength(each), own + choices)
}

const setting = {
  type: anything,
  default_member_permissions: maybe((value, path, findings) => {
    if (!/^\d+$/.test(String(value))) findings.breach(path, 'NUMBER_TYPE_COERCE', 'Value is not int.')
  }),
  dm_permission: maybe(truth),
  default_permission: anything,
  nsfw: maybe(truth),
  contexts: maybe(list(choice(0, 1, 2), 0, 3)),
  integration_types: maybe(list(choice(0, 1), 1, 2)),
  id: anything,
  handler: anything,
}

const chatInput = shape({ ...naming, ...setting, options: anything })
const contextMenu = shape({
  ...setting,
  name: text(1, 32),
  name_localizations: maybe(localizations(text(1, 32))),
  description: maybe(text(0, 0)),
  description_localizations: anything,
  options: maybe(list(anything, 0, 0)),
})

/** One command as sent; `guild`: a guild command, which has no contexts and no integration types. */
export function checkCommand(value: unknown, path: Path, findings: Findings, guild: boolean) {
  if (!isObject(value))
    return findings.breach(path, 'MODEL_TYPE_CONVERT', 'Only dictionaries may be used in a ModelType')
  const type = Number(value.type ?? ApplicationCommandType.ChatInput)
  if (type === ApplicationCommandType.ChatInput) {
    chatInput(value, path, findings)
    checkOptions(value.options, [...path, 'options'], findings, TOP_LEVEL)
  } else contextMenu(value, path, findings)
  for (const key of ['contexts', 'integration_types'])
    if (guild && value[key] !== undefined && value[key] !== null)
      findings.breach([...path, key], 'APPLICATION_COMMAND_GUILD_FIELD', `A guild command has no ${key}.`)
  if (commandLength(value) > COMMAND_CHARACTERS)
    findings.breach(
      path,
      'APPLICATION_COMMAND_TOO_LARGE',
      `Command exceeds maximum size (${COMMAND_CHARACTERS})`,
    )
}

/** Most commands of one type in one scope. */
const MOST_OF_TYPE: Record<number, number> = { 1: 100, 2: 15, 3: 15 }

/** A whole list of commands, as in a bulk overwrite. */
export function checkCommands(value: unknown, findings: Findings, guild: boolean) {
  if (!Array.isArray(value))
    return findings.breach([], 'LIST_TYPE_CONVERT', 'Only iterables may be used in a ListType')
  value.forEach((each, index) => {
    checkCommand(each, [index], findings, guild)
  })
  const key = (each: unknown) => (isObject(each) ? `${Number(each.type ?? 1)} ${String(each.name)}` : '')
  value.forEach((each, index) => {
    if (value.findIndex((other) => key(other) === key(each)) !== index)
      findings.breach(
        [index, 'name'],
        'APPLICATION_COMMANDS_DUPLICATE_NAME',
        'Application command names must be unique',
      )
  })
  for (const [type, most] of Object.entries(MOST_OF_TYPE))
    if (objectsOf(value).filter((each) => Number(each.type ?? 1) === Number(type)).length > most)
      findings.breach([], 'BASE_TYPE_MAX_LENGTH', `Must be ${most} or fewer commands of type ${type}.`)
}
