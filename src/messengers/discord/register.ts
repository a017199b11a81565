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
  return isDeepStrictEqual(byName(essence(registered)), byName(essence(wanted)))
}

/** The order of commands means nothing; that of options does. */
function byName(commands: unknown): unknown {
  return Array.isArray(commands)
    ? [...commands].sort((one, other) => (String(one.name) < String(other.name) ? -1 : 1))
    : commands
}

/** Without what is empty or false, which the platform leaves out or fills in as it likes. */
function essence(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(essence)
  if (typeof value !== 'object' || value === null) return value
  const kept = Object.entries(value)
    .filter(([key, one]) => OURS.has(key) && !isNothing(one))
    .map(([key, one]) => [key, key.endsWith('_localizations') ? one : essence(one)] as const)
  return Object.fromEntries(kept)
}

const isNothing = (value: unknown) =>
  value === null || value === undefined || value === false || (Array.isArray(value) && value.length === 0)
