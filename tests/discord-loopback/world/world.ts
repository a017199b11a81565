import type { APIOverwrite, LocaleString } from 'discord-api-types/v10'
import { isSnowflake, snowflakeAt } from '../snowflake.ts'
import { EVERYDAY_PERMISSIONS } from './permissions.ts'
import type {
  ChannelSeed,
  GuildSeed,
  MemberSeed,
  PermissionBits,
  RoleSeed,
  UserSeed,
  WorldSeed,
} from './seeds.ts'

export interface WorldUser {
  readonly id: string
  readonly name: string
  readonly bot: boolean
  locale: LocaleString
  dmsClosed: boolean
}

export interface WorldRole {
  readonly id: string
  readonly name: string
  permissions: bigint
}

export interface WorldMember {
  readonly user: WorldUser
  roles: WorldRole[]
  nick: string | undefined
}

/** A guild's text channel (`guildId`) or a direct message channel (`recipient`). */
export interface WorldChannel {
  readonly id: string
  readonly name: string
  readonly guildId: string | undefined
  readonly recipient: WorldUser | undefined
  overwrites: APIOverwrite[]
}

export interface WorldGuild {
  readonly id: string
  readonly name: string
  readonly locale: LocaleString
  readonly owner: WorldUser
  readonly install: 'guild' | 'user'
  everyone: bigint
  botPermissions: bigint
  roles: WorldRole[]
  channels: WorldChannel[]
  members: Map<string, WorldMember>
  outage: boolean
}

/** Seeds are dated from here, one ms apart, so that guilds fall on shards in turn: 0, 1, 0, 1 … */
const SEEDED_FROM_MS = Date.UTC(2025, 0, 1)

const bitsOf = (bits: PermissionBits | undefined, otherwise: bigint) =>
  bits === undefined ? otherwise : BigInt(bits)

const named = <T extends { id: string; name: string }>(all: Iterable<T>, ref: string): T | undefined => {
  for (const each of all) if (each.id === ref || each.name === ref) return each
  return undefined
}

/** By id at once, else by name. */
const lookUp = <T extends { id: string; name: string }>(all: Map<string, T>, ref: string | undefined) =>
  ref === undefined ? all.values().next().value : (all.get(ref) ?? named(all.values(), ref))

/** Who and what exists: people, guilds, channels. Looked up by name or by id; a wrong reference throws. */
export class World {
  readonly bot: WorldUser
  readonly applicationId: string
  readonly users = new Map<string, WorldUser>()
  readonly guilds = new Map<string, WorldGuild>()
  readonly channels = new Map<string, WorldChannel>()
  readonly #dms = new Map<string, WorldChannel>()
  #seeded = 0

  constructor(seed: WorldSeed, applicationId?: string) {
    this.applicationId = applicationId ?? this.#seedId()
    this.bot = { id: this.applicationId, name: 'demo-bot', bot: true, locale: 'en-US', dmsClosed: true }
    for (const user of seed.users ?? []) this.addUser(user)
    for (const guild of seed.guilds ?? []) this.addGuild(guild)
  }

  #seedId(): string {
    this.#seeded += 1
    return snowflakeAt(SEEDED_FROM_MS + 1000 + this.#seeded)
  }

  addUser(seed: UserSeed): WorldUser {
    const user: WorldUser = {
      id: seed.id ?? this.#seedId(),
      name: seed.name,
      bot: false,
      locale: seed.locale ?? 'en-US',
      dmsClosed: seed.dmsClosed ?? false,
    }
    this.users.set(user.id, user)
    return user
  }

  addGuild(seed: GuildSeed): WorldGuild {
    const id = seed.id ?? snowflakeAt(SEEDED_FROM_MS + this.guilds.size)
    const members = seed.members ?? [...this.users.values()].map((user) => ({ user: user.id }))
    const everyone = bitsOf(seed.everyone, EVERYDAY_PERMISSIONS)
    const guild: WorldGuild = {
      id,
      name: seed.name,
      locale: seed.locale ?? 'en-US',
      owner: this.user(seed.owner ?? members[0]?.user),
      install: seed.install ?? 'guild',
      everyone,
      botPermissions: bitsOf(seed.botPermissions, everyone),
      roles: [{ id, name: '@everyone', permissions: everyone }],
      channels: [],
      members: new Map(),
      outage: seed.outage ?? false,
    }
    this.guilds.set(id, guild)
    for (const role of seed.roles ?? []) this.addRole(guild, role)
    for (const channel of seed.channels ?? [{ name: 'general' }]) this.addChannel(guild, channel)
    for (const member of members) this.addMember(guild, member)
    return guild
  }

  addRole(guild: WorldGuild, seed: RoleSeed): WorldRole {
    const role = { id: seed.id ?? this.#seedId(), name: seed.name, permissions: bitsOf(seed.permissions, 0n) }
    guild.roles.push(role)
    return role
  }

  addChannel(guild: WorldGuild, seed: ChannelSeed): WorldChannel {
    const channel: WorldChannel = {
      id: seed.id ?? this.#seedId(),
      name: seed.name,
      guildId: guild.id,
      recipient: undefined,
      overwrites: seed.overwrites ?? [],
    }
    guild.channels.push(channel)
    this.channels.set(channel.id, channel)
    return channel
  }

  /** Adds a member, or gives the one that is there other roles or another nick. */
  addMember(guild: WorldGuild, seed: MemberSeed): WorldMember {
    const user = this.user(seed.user)
    const roles = (seed.roles ?? []).map((ref) => this.role(guild, ref))
    const member: WorldMember = { user, roles, nick: seed.nick }
    guild.members.set(user.id, member)
    return member
  }

  /** The person's direct message channel with the bot, opened if need be. */
  dmChannel(user: WorldUser): WorldChannel {
    const open = this.#dms.get(user.id)
    if (open !== undefined) return open
    const channel: WorldChannel = {
      id: this.#seedId(),
      name: '',
      guildId: undefined,
      recipient: user,
      overwrites: [],
    }
    this.#dms.set(user.id, channel)
    this.channels.set(channel.id, channel)
    return channel
  }

  /** Whether person and bot are in one guild: without that the bot cannot write to the person. */
  sharesGuild(user: WorldUser): boolean {
    return [...this.guilds.values()].some((guild) => guild.install === 'guild' && guild.members.has(user.id))
  }

  user(ref: string | undefined): WorldUser {
    const found = lookUp(this.users, ref)
    if (found === undefined) throw new Error(`Cannot find user "${ref}": not in the stand-in's world`)
    return found
  }

  guild(ref: string | undefined): WorldGuild {
    const found = lookUp(this.guilds, ref)
    if (found === undefined) throw new Error(`Cannot find guild "${ref}": not in the stand-in's world`)
    return found
  }

  /** A guild's channel by name or id; any channel by id. @default the guild's first */
  channel(guild: WorldGuild, ref: string | undefined): WorldChannel {
    const found =
      ref === undefined
        ? guild.channels[0]
        : (named(guild.channels, ref) ?? (isSnowflake(ref) ? this.channels.get(ref) : undefined))
    if (found === undefined) throw new Error(`Cannot find channel "${ref}" in "${guild.name}"`)
    return found
  }

  role(guild: WorldGuild, ref: string): WorldRole {
    const found = named(guild.roles, ref)
    if (found === undefined) throw new Error(`Cannot find role "${ref}" in "${guild.name}"`)
    return found
  }

  member(guild: WorldGuild, user: WorldUser): WorldMember {
    const found = guild.members.get(user.id)
    if (found === undefined) throw new Error(`Cannot act as "${user.name}" in "${guild.name}": not a member`)
    return found
  }
}
