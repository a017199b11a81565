import { MovableClock } from './clock.ts'
import { CommandsBook } from './commands-book.ts'
import { Files } from './files.ts'
import { Gateway } from './gateway/gateway.ts'
import type { GatewaySettings } from './gateway/settings.ts'
import { InteractionBook } from './interactions/book.ts'
import { Ledger } from './ledger.ts'
import { Messages } from './messages.ts'
import { Faults } from './rest/faults.ts'
import { Limits } from './rest/limits.ts'
import { NonceBook } from './rest/nonces.ts'
import { Snowflakes } from './snowflake.ts'
import { DEMO_WORLD, type WorldSeed } from './world/seeds.ts'
import { World } from './world/world.ts'

export interface PlatformSettings extends WorldSeed, Partial<GatewaySettings> {
  applicationId?: string
  /** File that receives every request body, one JSON object a line. */
  bodiesFile?: string
  /** Requests a second over all routes but those of interactions. @default no such limit */
  globalPerSecond?: number
  /** Running a command that is not registered: refuse (as people cannot) or guess its option kinds. @default 'refuse' */
  unregistered?: 'refuse' | 'guess'
}

/** A token in the right form: the bot's id, a stamp, a secret. It opens nothing but the stand-in. */
const tokenFor = (applicationId: string) =>
  `${Buffer.from(applicationId).toString('base64url')}.demo.${'stand-in'.repeat(4)}`

/** All parts of the stand-in in one place. The server and the gateway share it. */
export class Platform {
  readonly clock = new MovableClock()
  readonly ids = new Snowflakes(this.clock)
  readonly world: World
  readonly token: string
  readonly ledger: Ledger
  readonly commands: CommandsBook
  readonly messages: Messages
  readonly files: Files
  readonly interactions: InteractionBook
  readonly nonces: NonceBook
  readonly faults = new Faults()
  readonly limits: Limits
  readonly gateway: Gateway
  readonly unregistered: 'refuse' | 'guess'
  /** Where it listens, e.g. `http://127.0.0.1:40123`; empty before that. */
  origin = ''

  constructor(settings: PlatformSettings) {
    const seed = settings.guilds === undefined && settings.users === undefined ? DEMO_WORLD : settings
    this.world = new World(seed, settings.applicationId)
    this.token = tokenFor(this.world.applicationId)
    this.ledger = new Ledger(settings.bodiesFile)
    this.commands = new CommandsBook(this.clock, this.ids, this.world.applicationId)
    this.messages = new Messages(this.clock, this.ids)
    this.files = new Files(this.clock, this.ids)
    this.interactions = new InteractionBook(this.clock)
    this.nonces = new NonceBook(this.clock)
    this.limits = new Limits(settings.globalPerSecond)
    this.unregistered = settings.unregistered ?? 'refuse'
    this.gateway = new Gateway(this, settings)
  }
}
