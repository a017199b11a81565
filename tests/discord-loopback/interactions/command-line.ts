import {
  type APIApplicationCommand,
  type APIApplicationCommandInteractionDataOption,
  type APIApplicationCommandOption,
  InteractionContextType,
  ApplicationCommandOptionType as Kind,
} from 'discord-api-types/v10'
import type { Platform } from '../platform.ts'
import { guessDefinitions, type OptionValues } from './options.ts'
import type { Place } from './record.ts'

/** A command as a person finds it, down to the subcommand that was named. */
export interface Target {
  commandId: string
  name: string
  /** Subcommand group and subcommand, if any. */
  steps: { name: string; type: Kind.Subcommand | Kind.SubcommandGroup }[]
  options: readonly APIApplicationCommandOption[]
  guildId: string | undefined
}

const nestedOptions = (option: APIApplicationCommandOption): readonly APIApplicationCommandOption[] =>
  'options' in option ? (option.options ?? []) : []

function descend(command: APIApplicationCommand, path: readonly string[]): Pick<Target, 'steps' | 'options'> {
  let options: readonly APIApplicationCommandOption[] = command.options ?? []
  const steps: Target['steps'] = []
  for (const name of path) {
    const step = options.find((option) => option.name === name)
    if (step?.type !== Kind.Subcommand && step?.type !== Kind.SubcommandGroup)
      throw new Error(`Cannot run "/${command.name} ${path.join(' ')}": "${name}" is no subcommand`)
    steps.push({ name, type: step.type })
    options = nestedOptions(step)
  }
  if (options.some((option) => option.type <= Kind.SubcommandGroup))
    throw new Error(`Cannot run "/${command.name}": name one of its subcommands`)
  return { steps, options }
}

function checkContext(command: APIApplicationCommand, place: Place): void {
  const here = place.guild === undefined ? InteractionContextType.BotDM : InteractionContextType.Guild
  if (command.contexts && !command.contexts.includes(here))
    throw new Error(`Cannot run "/${command.name}" here: it is not offered in this context`)
  if (command.guild_id !== undefined && command.guild_id !== place.guild?.id)
    throw new Error(`Cannot run "/${command.name}" here: it belongs to another guild`)
}

/** `name`: the command, with group and subcommand after blanks, e.g. `records export`. */
export function findCommand(
  platform: Platform,
  place: Place,
  name: string,
  guess: { values: OptionValues; focused?: string | undefined },
): Target {
  const [command = '', ...path] = name.split(' ')
  const found = platform.commands.find(command, place.guild?.id)
  if (found !== undefined) {
    checkContext(found, place)
    return { commandId: found.id, name: command, guildId: found.guild_id, ...descend(found, path) }
  }
  if (platform.unregistered === 'refuse')
    throw new Error(`Cannot run "/${command}": no such command is registered`)
  const steps = path.map((step, index) => ({
    name: step,
    type: index === path.length - 1 ? Kind.Subcommand : Kind.SubcommandGroup,
  })) as Target['steps']
  return {
    commandId: platform.ids.next(),
    name: command,
    steps,
    options: guessDefinitions(guess.values, guess.focused),
    guildId: undefined,
  }
}

/** Wraps the options in the subcommand and group that were named. */
export function nest(
  steps: Target['steps'],
  options: APIApplicationCommandInteractionDataOption[],
): APIApplicationCommandInteractionDataOption[] {
  return [...steps]
    .reverse()
    .reduce<APIApplicationCommandInteractionDataOption[]>(
      (inner, step) => [
        { name: step.name, type: step.type, options: inner } as APIApplicationCommandInteractionDataOption,
      ],
      options,
    )
}
