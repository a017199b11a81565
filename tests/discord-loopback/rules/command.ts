import { ApplicationCommandOptionType, ApplicationCommandType, Locale } from 'discord-api-types/v10'
import {
  anything,
  type Check,
  choice,
  isObject,
  type Json,
  list,
  listOf,
  maybe,
  number,
  objectsOf,
  shape,
  text,
  truth,
  whole,
} from './check.ts'
import type { Findings, Path } from './findings.ts'
import { FILE_TYPE } from './modal.ts'

/** All counts and lengths: Discord developer docs, interactions/application-commands. */
export const COMMAND_CHARACTERS = 8000
export const OPTIONS_PER_LEVEL = 25
const CHAT_INPUT_NAME = /^[-_'\p{L}\p{N}\p{sc=Deva}\p{sc=Thai}]{1,32}$/u
const LOCALES = new Set<string>(Object.values(Locale))

const {
  Subcommand,
  SubcommandGroup,
  String: Text,
  Integer,
  Number: Decimal,
  Attachment,
  Channel,
} = ApplicationCommandOptionType

const chatInputName: Check = (value, path, findings) => {
  text(1, 32, CHAT_INPUT_NAME)(value, path, findings)
  if (typeof value === 'string' && value !== value.toLowerCase())
    findings.breach(path, 'APPLICATION_COMMAND_INVALID_NAME', 'Command name is invalid')
}

const localizations =
  (item: Check): Check =>
  (value, path, findings) => {
    if (!isObject(value))
      return findings.breach(path, 'DICT_TYPE_CONVERT', 'Only dictionaries may be used in a DictType')
    for (const [locale, each] of Object.entries(value)) {
      if (!LOCALES.has(locale))
        findings.breach([...path, locale], 'BASE_TYPE_CHOICES', 'Value must be a known locale.')
      if (each !== null) item(each, [...path, locale], findings)
    }
  }

const description = text(1, 100)

const naming = {
  name: chatInputName,
  name_localizations: maybe(localizations(chatInputName)),
  description,
  description_localizations: maybe(localizations(description)),
}

const choiceOf = (kind: number): Check =>
  shape({
    name: text(1, 100),
    name_localizations: maybe(localizations(text(1, 100))),
    value: kind === Text ? text(1, 100) : number(-(2 ** 53), 2 ** 53, kind === Integer),
  })

function extraFields(kind: number): Record<string, Check> {
  const choosable = { choices: maybe(list(choiceOf(kind), 0, 25)), autocomplete: maybe(truth) }
  switch (kind) {
    case Text:
      return { ...choosable, min_length: maybe(whole(0, 6000)), max_length: maybe(whole(1, 6000)) }
    case Integer:
      return {
        ...choosable,
        min_value: maybe(whole(-(2 ** 53) + 1, 2 ** 53 - 1)),
        max_value: maybe(whole(-(2 ** 53) + 1, 2 ** 53 - 1)),
      }
    case Decimal:
      return {
        ...choosable,
        min_value: maybe(number(-(2 ** 53), 2 ** 53)),
        max_value: maybe(number(-(2 ** 53), 2 ** 53)),
      }
    case Attachment:
      return { file_types: maybe(list(text(1, 100, FILE_TYPE), 0, 10)) }
    case Channel:
      return { channel_types: anything }
    default:
      return {}
  }
}

function checkChoices(one: Json, path: Path, findings: Findings): void {
  const choices = objectsOf(one.choices)
  if (one.autocomplete === true && choices.length > 0)
    findings.breach(
      [...path, 'autocomplete'],
      'APPLICATION_COMMAND_OPTIONS_CHOICES_AUTOCOMPLETE',
      'Choices and autocomplete cannot be used together',
    )
  for (const key of ['name', 'value'])
    choices.forEach((each, index) => {
      if (choices.findIndex((other) => other[key] === each[key]) !== index)
        findings.breach(
          [...path, 'choices', index, key],
          'APPLICATION_COMMAND_OPTIONS_CHOICE_DUPLICATE',
          `Choice ${key} is already used`,
        )
    })
  for (const [low, high] of [
    ['min_value', 'max_value'],
    ['min_length', 'max_length'],
  ] as const)
    if (typeof one[low] === 'number' && typeof one[high] === 'number' && one[low] > one[high])
      findings.breach([...path, low], 'NUMBER_TYPE_MAX', `${low} is above ${high}.`)
}

const basicOption: Check = (value, path, findings) => {
  if (!isObject(value)) return
  shape({ type: anything, ...naming, required: maybe(truth), ...extraFields(Number(value.type)) })(
    value,
    path,
    findings,
  )
  checkChoices(value, path, findings)
}

const nestedOption =
  (allowed: readonly number[]): Check =>
  (value, path, findings) => {
    shape({ type: anything, ...naming, options: anything, required: anything })(value, path, findings)
    if (isObject(value)) checkOptions(value.options, [...path, 'options'], findings, allowed)
  }

const BASIC = [3, 4, 5, 6, 7, 8, 9, 10, 11] as const
const TOP = [Subcommand, SubcommandGroup, ...BASIC]

function checkOption(value: unknown, path: Path, findings: Findings, allowed: readonly number[]) {
  if (!isObject(value))
    return findings.breach(path, 'MODEL_TYPE_CONVERT', 'Only dictionaries may be used in a ModelType')
  const type = Number(value.type)
  choice(...allowed)(value.type, [...path, 'type'], findings)
  if (type === SubcommandGroup) nestedOption([Subcommand])(value, path, findings)
  else if (type === Subcommand) nestedOption(BASIC)(value, path, findings)
  else basicOption(value, path, findings)
}

/** Options of one level: count, names unlike, required first, and not mixed with subcommands. */
function checkOptions(value: unknown, path: Path, findings: Findings, allowed: readonly number[]): void {
  if (value === undefined || value === null) return
  list((each, at, into) => checkOption(each, at, into, allowed), 0, OPTIONS_PER_LEVEL)(value, path, findings)
  const options = listOf(value).map((each) => (isObject(each) ? each : {}))
  let optionalSeen = false
  options.forEach((one, index) => {
    if (options.findIndex((other) => other.name === one.name) !== index)
      findings.breach(
        [...path, index, 'name'],
        'APPLICATION_COMMAND_OPTIONS_NAME_ALREADY_EXISTS',
        'Option name already exists',
      )
    if (one.required === true && optionalSeen)
      findings.breach(
        [...path, index],
        'APPLICATION_COMMAND_OPTIONS_REQUIRED_INVALID',
        'Required options must be placed before non-required options',
      )
    if (one.required !== true) optionalSeen = true
  })
  const nested = options.filter((one) => Number(one.type) <= SubcommandGroup).length
  if (nested > 0 && nested < options.length)
    findings.breach(
      path,
      'APPLICATION_COMMAND_OPTIONS_TYPE_INVALID',
      'Sub-command and sub-command group option types are mutually exclusive to all other types',
    )
}

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
    checkOptions(value.options, [...path, 'options'], findings, TOP)
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
