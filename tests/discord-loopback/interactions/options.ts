import {
  type APIApplicationCommandBasicOption,
  type APIApplicationCommandInteractionDataOption,
  type APIApplicationCommandOption,
  ApplicationCommandOptionType as Kind,
} from 'discord-api-types/v10'
import type { FileSeed } from '../files.ts'
import type { Resolved } from './resolved.ts'

/** A text, number or truth value as typed; a user, role or channel by name or id; a file. */
export type OptionValue = string | number | boolean | FileSeed
export type OptionValues = Record<string, OptionValue>

export const isFileSeed = (value: unknown): value is FileSeed =>
  typeof value === 'object' && value !== null && 'bytes' in value

const wrong = (name: string, why: string) => new Error(`Cannot fill option "${name}": ${why}`)

/** Files are limited by name only, as on the platform. */
export function fitsFileTypes(name: string, types: readonly string[] | undefined): boolean {
  if (types === undefined || types.length === 0) return true
  const ending = name.toLowerCase().split('.').at(-1) ?? ''
  const groups: Record<string, readonly string[]> = {
    image: ['png', 'jpg', 'jpeg', 'webp', 'gif', 'heic'],
    video: ['mp4', 'mov', 'webm'],
    audio: ['mp3', 'ogg', 'wav', 'm4a'],
  }
  return types.some((type) => groups[type]?.includes(ending) ?? type.toLowerCase() === `.${ending}`)
}

function checkText(option: APIApplicationCommandBasicOption, value: string): void {
  if (option.type !== Kind.String) return
  const { min_length: min = 0, max_length: max = 6000 } = option
  if (value.length < min || value.length > max)
    throw wrong(option.name, `${value.length} characters, not ${min} to ${max}`)
}

function checkNumber(option: APIApplicationCommandBasicOption, value: number): void {
  if (option.type !== Kind.Integer && option.type !== Kind.Number) return
  const { min_value: min = -Infinity, max_value: max = Infinity } = option
  if (value < min || value > max) throw wrong(option.name, `${value} is not ${min} to ${max}`)
  if (option.type === Kind.Integer && !Number.isInteger(value))
    throw wrong(option.name, `${value} is not whole`)
}

function checkChoices(option: APIApplicationCommandBasicOption, value: OptionValue): void {
  const choices = 'choices' in option ? (option.choices ?? []) : []
  if (choices.length > 0 && !choices.some((each) => each.value === value))
    throw wrong(option.name, `${String(value)} is none of its choices`)
}

/** The value as it travels: ids for things, and nothing that the platform's own form would not take. */
function valueFor(option: APIApplicationCommandBasicOption, value: OptionValue, resolved: Resolved) {
  switch (option.type) {
    case Kind.Attachment:
      if (!isFileSeed(value)) throw wrong(option.name, 'it takes a file')
      if (!fitsFileTypes(value.name, option.file_types))
        throw wrong(option.name, `"${value.name}" is of no allowed type`)
      return resolved.file(value)
    case Kind.User:
      return resolved.user(String(value))
    case Kind.Role:
      return resolved.role(String(value))
    case Kind.Channel:
      return resolved.channel(String(value))
    case Kind.Boolean:
      if (typeof value !== 'boolean') throw wrong(option.name, 'it takes true or false')
      return value
    case Kind.Integer:
    case Kind.Number:
      if (typeof value !== 'number') throw wrong(option.name, 'it takes a number')
      checkNumber(option, value)
      checkChoices(option, value)
      return value
    default:
      if (typeof value !== 'string') throw wrong(option.name, 'it takes text')
      checkText(option, value)
      checkChoices(option, value)
      return value
  }
}

const isBasic = (option: APIApplicationCommandOption): option is APIApplicationCommandBasicOption =>
  option.type !== Kind.Subcommand && option.type !== Kind.SubcommandGroup

function basics(
  defined: readonly APIApplicationCommandOption[],
  values: OptionValues,
): APIApplicationCommandBasicOption[] {
  const known = defined.filter(isBasic)
  const stray = Object.keys(values).filter((name) => !known.some((option) => option.name === name))
  if (stray.length > 0) throw new Error(`Cannot fill option "${stray[0]}": the command has none of that name`)
  return known
}

/** Options of a command as run by a person: required ones are there, all fit their definition. */
export function runOptions(
  defined: readonly APIApplicationCommandOption[],
  values: OptionValues,
  resolved: Resolved,
): APIApplicationCommandInteractionDataOption[] {
  return basics(defined, values).flatMap((option) => {
    const value = values[option.name]
    if (value === undefined && option.required === true) throw wrong(option.name, 'it is required')
    if (value === undefined) return []
    return [
      {
        name: option.name,
        type: option.type,
        value: valueFor(option, value, resolved),
      } as APIApplicationCommandInteractionDataOption,
    ]
  })
}

/** Options while typing: the focused one as it stands, whatever its kind; the others if they are filled. */
export function typingOptions(
  defined: readonly APIApplicationCommandOption[],
  values: OptionValues,
  focused: string,
): { options: APIApplicationCommandInteractionDataOption[]; focusedType: number } {
  const known = basics(defined, values)
  const target = known.find((option) => option.name === focused)
  if (target === undefined || !('autocomplete' in target) || target.autocomplete !== true)
    throw new Error(`Cannot type into option "${focused}": it has no autocomplete`)
  const filled = known.filter((option) => option === target || values[option.name] !== undefined)
  const options = filled.map((option) => ({
    name: option.name,
    type: option.type,
    value: option === target ? String(values[focused] ?? '') : values[option.name],
    ...(option === target ? { focused: true } : {}),
  }))
  return { options: options as APIApplicationCommandInteractionDataOption[], focusedType: target.type }
}

function guessKind(value: OptionValue): Kind {
  if (isFileSeed(value)) return Kind.Attachment
  if (typeof value === 'boolean') return Kind.Boolean
  if (typeof value === 'number') return Number.isInteger(value) ? Kind.Integer : Kind.Number
  return Kind.String
}

/** Definitions guessed from values, for commands that were never registered. */
export function guessDefinitions(values: OptionValues, focused?: string): APIApplicationCommandOption[] {
  const names = [...new Set([...Object.keys(values), ...(focused === undefined ? [] : [focused])])]
  return names.map((name) => {
    const type = guessKind(values[name] ?? '')
    return {
      name,
      type,
      description: name,
      ...(name === focused ? { autocomplete: true } : {}),
    } as APIApplicationCommandOption
  })
}
