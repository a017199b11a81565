import {
  type APIApplication,
  type APIGuildMember,
  type APIRole,
  type APIUser,
  ChannelType,
  type GatewayGuildCreateDispatchData,
  Locale,
  type UserFlags,
} from 'discord-api-types/v10'
import type { WorldChannel, WorldGuild, WorldMember, WorldUser } from './world.ts'

const JOINED_AT = '2025-03-01T12:00:00.000000+00:00'

/** A user as the platform shows it, with the fields that its published description requires. */
export function userObject(user: WorldUser): APIUser {
  return {
    id: user.id,
    username: user.name,
    discriminator: user.bot ? '0001' : '0',
    global_name: user.bot ? null : user.name,
    avatar: null,
    banner: null,
    accent_color: null,
    public_flags: 0 as UserFlags,
    flags: 0 as UserFlags,
    primary_guild: null,
    ...(user.bot ? { bot: true } : {}),
  }
}

export function memberObject(member: WorldMember): APIGuildMember {
  return {
    user: userObject(member.user),
    roles: member.roles.map((role) => role.id),
    nick: member.nick ?? null,
    avatar: null,
    banner: null,
    joined_at: JOINED_AT,
    premium_since: null,
    communication_disabled_until: null,
    deaf: false,
    mute: false,
    pending: false,
    flags: 0 as APIGuildMember['flags'],
  }
}

export function roleObject(
  role: { id: string; name: string; permissions: bigint },
  position: number,
): APIRole {
  return {
    id: role.id,
    name: role.name,
    color: 0,
    colors: { primary_color: 0, secondary_color: null, tertiary_color: null },
    hoist: false,
    icon: null,
    unicode_emoji: null,
    position,
    permissions: role.permissions.toString(),
    managed: false,
    mentionable: false,
    flags: 0 as APIRole['flags'],
  }
}

const guildTextChannel = (channel: WorldChannel, position: number) => ({
  id: channel.id,
  type: ChannelType.GuildText as const,
  name: channel.name,
  position,
  flags: 0,
  nsfw: false,
  parent_id: null,
  topic: null,
  rate_limit_per_user: 0,
  last_message_id: null,
  permission_overwrites: channel.overwrites,
  ...(channel.guildId === undefined ? {} : { guild_id: channel.guildId }),
})

/** A channel as REST and interactions show it; a DM channel carries its recipients. */
export function channelObject(channel: WorldChannel) {
  if (channel.recipient === undefined) return guildTextChannel(channel, 0)
  return {
    id: channel.id,
    type: ChannelType.DM as const,
    flags: 0,
    last_message_id: null,
    recipients: [userObject(channel.recipient)],
  }
}

/** The full guild that follows READY when the Guilds intent is set. */
export function guildCreateObject(guild: WorldGuild, bot: WorldUser): GatewayGuildCreateDispatchData {
  const botMember = { user: bot, roles: [], nick: undefined }
  return {
    ...guildObject(guild),
    joined_at: JOINED_AT,
    large: false,
    unavailable: false,
    member_count: guild.members.size + 1,
    voice_states: [],
    members: [memberObject(botMember)],
    channels: guild.channels.map(guildTextChannel) as GatewayGuildCreateDispatchData['channels'],
    threads: [],
    presences: [],
    stage_instances: [],
    guild_scheduled_events: [],
    soundboard_sounds: [],
  }
}

export function guildObject(guild: WorldGuild) {
  return {
    id: guild.id,
    name: guild.name,
    icon: null,
    splash: null,
    discovery_splash: null,
    banner: null,
    description: null,
    owner_id: guild.owner.id,
    afk_channel_id: null,
    afk_timeout: 300 as const,
    verification_level: 0,
    default_message_notifications: 1,
    explicit_content_filter: 0,
    roles: guild.roles.map(roleObject),
    emojis: [],
    stickers: [],
    features: [],
    mfa_level: 0,
    application_id: null,
    system_channel_id: null,
    system_channel_flags: 0 as never,
    rules_channel_id: null,
    public_updates_channel_id: null,
    safety_alerts_channel_id: null,
    vanity_url_code: null,
    premium_tier: 0,
    premium_progress_bar_enabled: false,
    preferred_locale: (guild.locale ?? Locale.EnglishUS) as Locale,
    nsfw_level: 0,
    nsfw: false,
    hub_type: null,
    home_header: null,
    region: null,
    widget_enabled: false,
    widget_channel_id: null,
    max_presences: null,
    max_members: 500_000,
    max_video_channel_users: 25,
    max_stage_video_channel_users: 50,
    premium_subscription_count: 0,
    incidents_data: null,
  }
}

/** The application as `GET /applications/@me` shows it. */
export function applicationObject(applicationId: string, owner: WorldUser) {
  return {
    id: applicationId,
    name: 'Demo app',
    icon: null,
    description: '',
    type: null,
    bot_public: true,
    bot_require_code_grant: false,
    verify_key: '0'.repeat(64),
    flags: 0 as APIApplication['flags'],
    flags_new: '0',
    redirect_uris: [],
    interactions_endpoint_url: null,
    role_connections_verification_url: null,
    owner: userObject(owner),
    approximate_guild_count: 1,
    approximate_user_install_count: 0,
    approximate_user_authorization_count: 0,
    explicit_content_filter: 0,
    team: null,
    eligible_oauth2_scopes: [],
  }
}
