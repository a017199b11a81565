import type { APIMessage } from 'discord-api-types/v10'
import type { MovableClock } from './clock.ts'
import { controlRoute } from './control/control.ts'
import type { Gateway } from './gateway/gateway.ts'
import type { Fired } from './interactions/fired.ts'
import {
  type AutocompleteSeed,
  People,
  type PressSeed,
  type SelectSeed,
  type SlashSeed,
  type SubmitSeed,
} from './interactions/people.ts'
import type { Ledger, LoggedRequest, RequestMatch } from './ledger.ts'
import { Platform, type PlatformSettings } from './platform.ts'
import type { Faults } from './rest/faults.ts'
import type { Limits } from './rest/limits.ts'
import { LoopbackServer } from './rest/server.ts'
import { PATIENCE_MS } from './waiting.ts'
import type { World } from './world/world.ts'

export interface StandInSettings extends PlatformSettings {
  /** @default any free one */
  port?: number
  /** Serves `/control` too, so that another program can play the people. @default false */
  control?: boolean
}

/** A running stand-in for Discord. Made by `startDiscord`. */
export class DiscordStandIn {
  readonly platform: Platform
  readonly #server: LoopbackServer
  readonly #people: People

  constructor(platform: Platform, server: LoopbackServer, people: People) {
    this.platform = platform
    this.#server = server
    this.#people = people
  }

  /** For the client: `new Client({ rest: { api } })`. */
  get api(): string {
    return `${this.platform.origin}/api`
  }

  get port(): number {
    return this.#server.port
  }

  get token(): string {
    return this.platform.token
  }

  get applicationId(): string {
    return this.platform.world.applicationId
  }

  get world(): World {
    return this.platform.world
  }

  get clock(): MovableClock {
    return this.platform.clock
  }

  get gateway(): Gateway {
    return this.platform.gateway
  }

  get faults(): Faults {
    return this.platform.faults
  }

  get limits(): Limits {
    return this.platform.limits
  }

  get ledger(): Ledger {
    return this.platform.ledger
  }

  get requests(): LoggedRequest[] {
    return this.ledger.requests
  }

  /** Rules broken so far; a good bot leaves it empty. */
  get violations() {
    return this.ledger.violations
  }

  /** Fields and habits that the platform ignores or frowns on. */
  get warnings() {
    return this.ledger.warnings
  }

  /** Calls to routes that do not exist here. */
  get unexpected(): string[] {
    return this.ledger.unexpected
  }

  get counts() {
    return this.ledger.counts
  }

  slash(seed: SlashSeed): Fired {
    return this.#people.slash(seed)
  }

  autocomplete(seed: AutocompleteSeed): Fired {
    return this.#people.autocomplete(seed)
  }

  press(seed: PressSeed): Fired {
    return this.#people.press(seed)
  }

  select(seed: SelectSeed): Fired {
    return this.#people.select(seed)
  }

  submitModal(seed: SubmitSeed): Fired {
    return this.#people.submitModal(seed)
  }

  /** The next matching request to be answered (or cut off) from now on. */
  nextRequest(match: RequestMatch, timeoutMs = PATIENCE_MS): Promise<LoggedRequest> {
    return this.ledger.nextRequest(match, timeoutMs)
  }

  requestsTo(match: RequestMatch): LoggedRequest[] {
    return this.ledger.requestsTo(match)
  }

  /** What stands in a channel (by name or id), private answers included, oldest first. */
  messagesIn(channel: string, guild?: string): APIMessage[] {
    const { id } = this.world.channel(this.world.guild(guild), channel)
    return this.platform.messages.inChannel(id).map((each) => each.object)
  }

  /** What the bot wrote to a person directly, oldest first. */
  directMessages(user: string): APIMessage[] {
    return this.platform.messages
      .inChannel(this.world.dmChannel(this.world.user(user)).id)
      .map((each) => each.object)
  }

  dropSocket(shard?: number): void {
    this.gateway.dropSocket(shard)
  }

  stopAcks(): void {
    this.gateway.stopAcks()
  }

  sendOp7(shard?: number): void {
    this.gateway.sendOp7(shard)
  }

  sendOp9(resumable: boolean, shard?: number): void {
    this.gateway.sendOp9(resumable, shard)
  }

  /** Closes the gateway connection with a code. */
  close(code: number, shard?: number): void {
    this.gateway.close(code, shard)
  }

  /** Throws if any rule was broken or any unknown route was called. */
  assertClean(): void {
    this.ledger.assertClean()
  }

  /** The server goes away; sessions, messages and commands are kept. */
  async stopListening(): Promise<void> {
    await this.#server.close()
  }

  /** Comes back on the same port. */
  async listenAgain(): Promise<void> {
    await this.#server.listen()
  }

  /** Ends it. Throws if the stand-in itself had a bug on the way. */
  async stop(): Promise<void> {
    await this.#server.close()
  }
}

/** Starts a stand-in on 127.0.0.1. Without guilds and users it has the demo world. */
export async function startDiscord(settings: StandInSettings = {}): Promise<DiscordStandIn> {
  const platform = new Platform(settings)
  const people = new People(platform)
  const control = settings.control === true ? controlRoute(platform, people) : undefined
  const server = new LoopbackServer(platform, control)
  await server.listen(settings.port ?? 0)
  return new DiscordStandIn(platform, server, people)
}
