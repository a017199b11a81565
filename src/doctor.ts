import { mkdirSync, statSync } from 'node:fs'
import path from 'node:path'
import { sql } from 'kysely'
import { livePlaces, readSettings, type Settings, SettingsError } from './settings.ts'
import { openDatabase } from './store/open.ts'
import { write } from './store/transaction.ts'
import { loadSafetyLines, loadWords } from './words/load.ts'

/** One thing that was looked at: well, or what to mend. */
export interface Finding {
  readonly about: string
  readonly well: boolean
  readonly says: string
}

const DISCORD = 'https://discord.com/api'
const PATIENCE_MS = 10_000

/** Looks at settings, words, store, token and permissions, and says of each what to mend. */
export async function examine(environment: Readonly<Record<string, string | undefined>>): Promise<Finding[]> {
  const settings = examineSettings(environment)
  if (!('discordToken' in settings)) return [settings]
  const well: Finding = { about: 'settings', well: true, says: 'all can be read' }
  return [
    well,
    examineNode(),
    examineWords(),
    await examineStore(settings),
    ...(await examineDiscord(settings)),
  ]
}

function examineSettings(environment: Readonly<Record<string, string | undefined>>): Settings | Finding {
  try {
    return readSettings(environment)
  } catch (error) {
    if (!(error instanceof SettingsError)) throw error
    return { about: 'settings', well: false, says: error.message }
  }
}

const OLDEST = [20, 19] as const

function examineNode(): Finding {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number)
  const well = major > OLDEST[0] || (major === OLDEST[0] && minor >= OLDEST[1])
  return {
    about: 'Node.js',
    well,
    says: well
      ? process.versions.node
      : `${process.versions.node} is too old: install ${OLDEST.join('.')} or newer`,
  }
}

function examineWords(): Finding {
  try {
    const { locales } = loadWords()
    const lines = loadSafetyLines().length
    return { about: 'words', well: true, says: `${locales.join(', ')}; ${lines} safety lines` }
  } catch (error) {
    return { about: 'words', well: false, says: messageOf(error) }
  }
}

/** Opens the store as the live bot would, and writes and undoes one row. */
async function examineStore(settings: Settings): Promise<Finding> {
  const { address } = livePlaces(settings)
  const where = address.engine === 'sqlite' ? address.path : 'PostgreSQL'
  try {
    if (address.engine === 'sqlite' && address.path !== ':memory:')
      mkdirSync(path.dirname(address.path), { recursive: true, mode: 0o700 })
    const database = await openDatabase(address, 'live')
    try {
      await write(database, async (db) => {
        await sql`update meta set value = value where name = 'purpose'`.execute(db)
      })
    } finally {
      await database.close()
    }
    if (address.engine === 'sqlite' && isOpenToOthers(address.path))
      return {
        about: 'store',
        well: false,
        says: `${where} can be read by others on this machine: chmod go= it, its -wal and its -shm, and FILES_FOLDER`,
      }
    return { about: 'store', well: true, says: `${where} can be read and written` }
  } catch (error) {
    return { about: 'store', well: false, says: `${where}: ${messageOf(error)}` }
  }
}

/**
 * Can somebody else on this machine get at the file? A new one is the program's user's alone; one of an earlier version
 * keeps the rights that it had.
 */
function isOpenToOthers(file: string): boolean {
  if (process.platform === 'win32' || file === ':memory:') return false
  const modeOf = (place: string) => statSync(place).mode
  return (modeOf(file) & 0o077) !== 0 && (modeOf(path.dirname(file)) & 0o011) !== 0
}

async function examineDiscord({ discordToken, discordApi }: Settings): Promise<Finding[]> {
  if (discordToken === null)
    return [
      {
        about: 'token',
        well: false,
        says: 'DISCORD_TOKEN is not set: the practice room opens instead of Discord',
      },
    ]
  const ask = (route: string) =>
    fetch(`${discordApi ?? DISCORD}/v10${route}`, {
      headers: { authorization: `Bot ${discordToken}` },
      signal: AbortSignal.timeout(PATIENCE_MS),
    })
  try {
    const me = await ask('/users/@me')
    if (me.status === 401)
      return [
        {
          about: 'token',
          well: false,
          says: 'Discord refuses the token: copy it again from the developer portal',
        },
      ]
    if (!me.ok)
      return [{ about: 'token', well: false, says: `Discord answers with ${me.status}: try again later` }]
    const { username } = (await me.json()) as { username?: string }
    return [
      { about: 'token', well: true, says: `accepted, the bot is called ${username ?? '?'}` },
      await examineServers(ask),
    ]
  } catch (error) {
    return [{ about: 'token', well: false, says: `Discord cannot be reached: ${messageOf(error)}` }]
  }
}

/** View channels, send messages, attach files, use of threads is left to the server. */
const NEEDED = { 'View Channels': 1n << 10n, 'Send Messages': 1n << 11n, 'Attach Files': 1n << 15n } as const
const ADMINISTRATOR = 1n << 3n

async function examineServers(ask: (route: string) => Promise<Response>): Promise<Finding> {
  const about = 'permissions'
  const response = await ask('/users/@me/guilds')
  if (!response.ok)
    return { about, well: true, says: `the list of servers could not be read (${response.status})` }
  const servers = (await response.json()) as { name: string; permissions?: string }[]
  if (servers.length === 0) return { about, well: false, says: 'the bot is on no server yet: invite it' }
  const lacking = servers.flatMap(({ name, permissions = '0' }) => {
    const held = BigInt(permissions)
    if ((held & ADMINISTRATOR) !== 0n) return []
    const missing = Object.entries(NEEDED).filter(([, bit]) => (held & bit) === 0n)
    return missing.length === 0 ? [] : [`${name}: give it ${missing.map(([what]) => what).join(', ')}`]
  })
  return lacking.length === 0
    ? { about, well: true, says: `enough on ${servers.length} server${servers.length === 1 ? '' : 's'}` }
    : { about, well: false, says: lacking.join('; ') }
}

const messageOf = (error: unknown) => (error instanceof Error ? error.message : String(error))

/** Prints the findings; 0 when all is well. */
export async function runDoctor(environment: Readonly<Record<string, string | undefined>>): Promise<number> {
  const findings = await examine(environment)
  for (const { about, well, says } of findings)
    process.stdout.write(`${well ? 'well' : 'MEND'}  ${about}: ${says}\n`)
  return findings.every(({ well }) => well) ? 0 : 1
}
