import { ApplicationCommandOptionType, Locale } from 'discord-api-types/v10'
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

/** A dictionary by locale. */
export const localizations =
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

/** Name and description, of a command or an option. */
export const naming = {
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
/** What may stand on the top level of a command. */
export const TOP_LEVEL = [Subcommand, SubcommandGroup, ...BASIC]

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
export function checkOptions(
  value: unknown,
  path: Path,
  findings: Findings,
  allowed: readonly number[],
): void {
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
