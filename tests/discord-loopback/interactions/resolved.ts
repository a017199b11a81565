import type { APIInteractionDataResolved, APIInteractionDataResolvedChannel } from 'discord-api-types/v10'
import type { FileSeed } from '../files.ts'
import type { Platform } from '../platform.ts'
import { memberObject, roleObject, userObject } from '../world/objects.ts'
import { memberPermissions } from '../world/permissions.ts'
import type { Place } from './record.ts'

/** Gathers the objects behind the ids of one interaction. */
export class Resolved {
  readonly #platform: Platform
  readonly #place: Place
  readonly #found: APIInteractionDataResolved = {}

  constructor(platform: Platform, place: Place) {
    this.#platform = platform
    this.#place = place
  }

  /** Puts a file on the CDN; its id. */
  file(seed: FileSeed): string {
    const attachment = this.#platform.files.put(seed, this.#place.channel.id, { ephemeral: true })
    this.#found.attachments = { ...this.#found.attachments, [attachment.id]: attachment }
    return attachment.id
  }

  /** By name or id; the id. */
  user(ref: string): string {
    const { guild, channel } = this.#place
    const user = this.#platform.world.user(ref)
    this.#found.users = { ...this.#found.users, [user.id]: userObject(user) }
    const member = guild?.members.get(user.id)
    if (guild !== undefined && member !== undefined) {
      const { user: _user, deaf: _deaf, mute: _mute, ...rest } = memberObject(member)
      const permissions = memberPermissions(guild, member, channel).toString()
      this.#found.members = { ...this.#found.members, [user.id]: { ...rest, permissions } }
    }
    return user.id
  }

  role(ref: string): string {
    const guild = this.#guild('role', ref)
    const role = this.#platform.world.role(guild, ref)
    this.#found.roles = { ...this.#found.roles, [role.id]: roleObject(role, guild.roles.indexOf(role)) }
    return role.id
  }

  channel(ref: string): string {
    const guild = this.#guild('channel', ref)
    const { id, name } = this.#platform.world.channel(guild, ref)
    const partial = {
      id,
      name,
      type: 0,
      permissions: guild.everyone.toString(),
    } as APIInteractionDataResolvedChannel
    this.#found.channels = { ...this.#found.channels, [id]: partial }
    return id
  }

  #guild(kind: string, ref: string) {
    if (this.#place.guild === undefined) throw new Error(`Cannot choose ${kind} "${ref}" outside a guild`)
    return this.#place.guild
  }

  get any(): boolean {
    return Object.keys(this.#found).length > 0
  }

  get data(): APIInteractionDataResolved {
    return this.#found
  }
}
