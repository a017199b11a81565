import { isDeepStrictEqual } from 'node:util'
import { type REST, Routes } from 'discord.js'
import type { Definition } from './definitions.ts'
import type { Log } from './log.ts'
import { describeError, troubleOf } from './platform-error.ts'

export type Registered = 'same' | 'changed' | 'failed'

/**
 * Registers all commands in one call, and only if they differ from what is registered: a restart costs one read.
 * The platform's refusal does not stop the bot, since what was registered before still works.
 */
export async function registerCommands(parts: {
  readonly rest: REST
  readonly log: Log
  readonly wanted: readonly Definition[]
  readonly applicationId: string
}): Promise<Registered> {
  const { rest, log, wanted, applicationId } = parts
  const route = Routes.applicationCommands(applicationId)
  try {
    const registered = await rest.get(route, { query: new URLSearchParams({ with_localizations: 'true' }) })
    if (isSame(registered, wanted)) return 'same'
    await rest.put(route, { body: wanted })
    log.info({ commands: wanted.length }, 'commands registered')
    return 'changed'
  } catch (error) {
    if (troubleOf(error) === 'token-refused') throw error
    log.error({ error: describeError(error) }, 'commands could not be registered')
    return 'failed'
  }
}

/** Fields that a command's maker decides; ids, versions and what the platform fills in are left out. */
const OURS = new Set([
  'type',
  'name',
  'name_localizations',
  'description',
  'description_localizations',
  'options',
  'choices',
  'required',
  'autocomplete',
  'value',
  'min_value',
  'max_value',
  'min_length',
  'max_length',
  'default_member_permissions',
  'contexts',
  'integration_types',
  'nsfw',
])

export function isSame(registered: unknown, wanted: readonly Definition[]): boolean {
  if (!Array.isArray(registered)) return false
  return isAlike(byName(registered), byName(wanted))
}

/** The order of commands means nothing; that of options does. */
function byName(commands: unknown): unknown {
  return Array.isArray(commands)
    ? [...commands].sort((one, other) => (String(one.name) < String(other.name) ? -1 : 1))
    : commands
}

/** Whether both say the same, but for what is empty or false, which the platform leaves out or fills in as it likes. */
function isAlike(one: unknown, other: unknown): boolean {
  if (Array.isArray(one) || Array.isArray(other))
    return (
      isList(one) &&
      isList(other) &&
      one.length === other.length &&
      one.every((each, at) => isAlike(each, other[at]))
    )
  if (!isObject(one) || !isObject(other)) return Object.is(one, other)
  for (const key of OURS) {
    const [here, there] = [one[key], other[key]]
    if (isNothing(here) || isNothing(there)) {
      if (isNothing(here) !== isNothing(there)) return false
    } else if (!(key.endsWith('_localizations') ? isDeepStrictEqual(here, there) : isAlike(here, there)))
      return false
  }
  return true
}

const isList = (value: unknown): value is readonly unknown[] => Array.isArray(value)
const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null

const isNothing = (value: unknown) =>
  value === null || value === undefined || value === false || (Array.isArray(value) && value.length === 0)
