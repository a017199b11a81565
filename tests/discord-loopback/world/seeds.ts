import type { APIOverwrite, LocaleString } from 'discord-api-types/v10'

/** A set of permission bits; as text in JSON files. */
export type PermissionBits = bigint | string

/** Anyone is referred to by name or by id. */
export interface UserSeed {
  name: string
  id?: string
  /** The person's client language. @default 'en-US' */
  locale?: LocaleString
  /** Takes no direct messages from the bot (50007). */
  dmsClosed?: boolean
}

export interface RoleSeed {
  name: string
  id?: string
  permissions?: PermissionBits
}

export interface ChannelSeed {
  name: string
  id?: string
  overwrites?: APIOverwrite[]
}

export interface MemberSeed {
  user: string
  /** Names or ids of roles. */
  roles?: string[]
  nick?: string
}

export interface GuildSeed {
  name: string
  id?: string
  locale?: LocaleString
  /** Name or id of a user; may do everything there. @default the first member */
  owner?: string
  roles?: RoleSeed[]
  channels?: ChannelSeed[]
  members?: MemberSeed[]
  /** What everybody may do there. @default see, write, use commands, attach and embed */
  everyone?: PermissionBits
  /** What the bot may do there. @default as everybody */
  botPermissions?: PermissionBits
  /** READY names the guild but its GUILD_CREATE does not come until `restoreGuild`. */
  outage?: boolean
  /** `user`: the app was installed by a person, the bot is not in the guild. @default 'guild' */
  install?: 'guild' | 'user'
}

export interface WorldSeed {
  users?: UserSeed[]
  guilds?: GuildSeed[]
}

/** Invented demo world: one guild, two channels, a lead with a role, two crew members, and a stranger. */
export const DEMO_WORLD: WorldSeed = {
  users: [
    { name: 'demo.lead' },
    { name: 'demo.crew' },
    { name: 'demo.crew2', locale: 'es-ES' },
    { name: 'demo.stranger' },
  ],
  guilds: [
    {
      name: 'Demo Grounds',
      owner: 'demo.lead',
      roles: [{ name: 'leads', permissions: '32' }],
      channels: [{ name: 'field' }, { name: 'office' }],
      members: [{ user: 'demo.lead', roles: ['leads'] }, { user: 'demo.crew' }, { user: 'demo.crew2' }],
    },
  ],
}
