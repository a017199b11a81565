import path from 'node:path'
import { z } from 'zod'
import { dayIn } from './desk/clock.ts'
import { projectRoot } from './project.ts'
import type { DatabaseAddress } from './store/open.ts'

const PORT = z.coerce.number().int().min(1).max(65_535).optional()

/** What DATABASE_URL takes. */
export const isDatabaseUrl = (url: string) => /^(sqlite:.+|postgres(ql)?:\/\/.+)$/.test(url)
export const DATABASE_URLS = 'must be sqlite:PATH or postgres://…'

/** What a setting must look like; each is checked at the start, all problems at once. */
const Environment = z.object({
  DISCORD_TOKEN: z.string().trim().min(1).optional(),
  DISCORD_API: z.url().optional(),
  DISCORD_FILE_HOSTS: z.string().optional(),
  DATABASE_URL: z.string().refine(isDatabaseUrl, DATABASE_URLS).optional(),
  FILES_FOLDER: z.string().min(1).optional(),
  BACKUPS_FOLDER: z.string().min(1).optional(),
  PORT,
  HEALTH_PORT: PORT,
  PAGE_HOST: z.string().min(1).max(100).optional(),
  PAGE_SECRET: z.string().min(16, 'must have at least 16 characters').max(200).optional(),
  CREW_TIMEZONE: z.string().refine(isZone, 'must be a time zone such as America/Chicago').optional(),
  SHARDS: z
    .string()
    .regex(/^\d{1,5}(-\d{1,5})?(,\d{1,5}(-\d{1,5})?)*$/, 'must be numbers such as 0-3 or 0,2,5')
    .optional(),
  SHARD_COUNT: z.coerce.number().int().min(1).max(10_000).optional(),
  LOG_LEVEL: z.enum(['fatal', 'error', 'warn', 'info', 'debug', 'silent']).default('info'),
})

export interface Settings {
  readonly discordToken: string | null
  readonly discordApi: string | null
  readonly discordFileHosts: readonly string[]
  readonly database: DatabaseAddress | null
  /** Where photos are kept; null for a folder beside the database. */
  readonly filesFolder: string | null
  /** Where `npm run backup` puts its copies; null for a folder beside the database. */
  readonly backupsFolder: string | null
  readonly port: number
  /** False for the usual port, which may be taken: then any other will do. */
  readonly isPortSet: boolean
  /** Port of the health page, and the setting that named it; null when none does, and then there is none. */
  readonly health: { readonly port: number; readonly setting: string } | null
  /** Where the practice page listens; null for this machine alone. */
  readonly pageHost: string | null
  /** Lets people in who come from other machines. */
  readonly pageSecret: string | null
  /** Time zone of new crews; null when none is set. */
  readonly zone: string | null
  /** The shards of this process, and how many there are in all; null for one process with as many as the platform advises. */
  readonly shards: Shards | null
  readonly logLevel: string
}

export interface Shards {
  readonly ids: readonly number[]
  readonly count: number
}

/** Wrong settings stop the program with a sentence that names each of them. */
export class SettingsError extends Error {}

const DEFAULT_PORT = 4780
export const DEFAULT_ZONE = 'America/Chicago'

/** @throws SettingsError listing every setting that cannot be used. */
export function readSettings(environment: Readonly<Record<string, string | undefined>>): Settings {
  const given = Object.fromEntries(Object.entries(environment).filter(([, value]) => value !== ''))
  const read = Environment.safeParse(given)
  if (!read.success) {
    const problems = read.error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`)
    throw new SettingsError(
      `Cannot start with these settings:\n${problems.map((one) => `- ${one}`).join('\n')}`,
    )
  }
  const found = read.data
  const database = found.DATABASE_URL === undefined ? null : addressOf(found.DATABASE_URL)
  return {
    discordToken: found.DISCORD_TOKEN ?? null,
    discordApi: found.DISCORD_API ?? null,
    discordFileHosts: (found.DISCORD_FILE_HOSTS ?? '').split(',').filter((host) => host !== ''),
    database,
    filesFolder: found.FILES_FOLDER ?? null,
    backupsFolder: found.BACKUPS_FOLDER ?? null,
    port: found.PORT ?? DEFAULT_PORT,
    isPortSet: found.PORT !== undefined,
    health: healthOf(found),
    pageHost: found.PAGE_HOST ?? null,
    pageSecret: found.PAGE_SECRET ?? null,
    zone: found.CREW_TIMEZONE ?? null,
    shards: shardsOf(found, database),
    logLevel: found.LOG_LEVEL,
  }
}

/**
 * Several processes on one SQLite file would stand in each other's way at every answer, and it lies on one machine.
 * @throws SettingsError
 */
function shardsOf(
  { SHARDS, SHARD_COUNT: count }: z.infer<typeof Environment>,
  database: DatabaseAddress | null,
): Shards | null {
  if (SHARDS === undefined && count === undefined) return null
  if (SHARDS === undefined || count === undefined)
    throw new SettingsError(
      'SHARDS and SHARD_COUNT go together: which shards this process serves, and how many there are in all.',
    )
  const ids = new Set<number>()
  for (const part of SHARDS.split(',')) {
    const [from = 0, to = from] = part.split('-').map(Number)
    if (to >= count || from > to)
      throw new SettingsError(`SHARDS: ${part} is none of the ${count} shards, which are numbered from 0.`)
    for (let id = from; id <= to; id += 1) ids.add(id)
  }
  if (ids.size < count && database?.engine !== 'postgres')
    throw new SettingsError(
      'SHARDS: this process serves only some of the shards, and several processes need PostgreSQL in DATABASE_URL. A SQLite file serves one process.',
    )
  return { ids: [...ids].sort((one, other) => one - other), count }
}

/** A port of its own, or for a bot on Discord, which serves no page, the general one. */
function healthOf({ HEALTH_PORT, PORT: port }: z.infer<typeof Environment>): Settings['health'] {
  if (HEALTH_PORT !== undefined) return { port: HEALTH_PORT, setting: 'HEALTH_PORT' }
  return port === undefined ? null : { port, setting: 'PORT' }
}

/** Where a live crew's records, photos and copies of both are, unless the settings name other places. */
export function livePlaces(settings: Settings) {
  const data = path.join(projectRoot(), '.data')
  return {
    address: settings.database ?? addressOf(`sqlite:${path.join(data, 'swardhand.sqlite')}`),
    filesFolder: settings.filesFolder ?? path.join(data, 'files'),
    backupsFolder: settings.backupsFolder ?? path.join(data, 'backups'),
  }
}

/** `sqlite:PATH` or `postgres://…`, as an address that the store can open. */
export function addressOf(url: string): DatabaseAddress {
  if (!url.startsWith('sqlite:')) return { engine: 'postgres', url }
  const file = url.slice('sqlite:'.length).replace(/^\/\/(?=\/)/, '')
  return { engine: 'sqlite', path: file === ':memory:' ? file : path.resolve(file) }
}

/** Most are in the list; the first format of a day takes the engine 15 ms and 8 MB, which a start does without. */
function isZone(zone: string): boolean {
  if (Intl.supportedValuesOf('timeZone').includes(zone)) return true
  try {
    dayIn(zone, 0)
    return true
  } catch {
    return false
  }
}
