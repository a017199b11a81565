import { randomBytes } from 'node:crypto'
import {
  type APIInteractionGuildMember,
  ApplicationIntegrationType,
  InteractionContextType,
  type InteractionType,
  type Locale,
} from 'discord-api-types/v10'
import type { Platform } from '../platform.ts'
import { FILE_BYTES } from '../rest/draft.ts'
import { channelObject, memberObject, userObject } from '../world/objects.ts'
import { ALL_PERMISSIONS, botPermissions, memberPermissions } from '../world/permissions.ts'
import type { Place } from './record.ts'

/** Who acts and where, by name or id. Without `guild` and `channel` the first ones are meant. */
export interface PlaceSeed {
  /** @default the world's first user */
  user?: string
  guild?: string
  channel?: string
  /** In direct messages with the bot instead of a guild. */
  dm?: boolean
}

/** Looks the place up; acting in a guild without being a member throws. */
export function findPlace(
  platform: Platform,
  { user: ref, guild: guildRef, channel: channelRef, dm }: PlaceSeed,
): Place {
  const { world } = platform
  const user = world.user(ref)
  if (dm === true) return { user, guild: undefined, channel: world.dmChannel(user) }
  const guild = world.guild(guildRef)
  world.member(guild, user)
  return { user, guild, channel: world.channel(guild, channelRef) }
}

/** The place of a message, seen by a person. */
export function placeOfMessage(platform: Platform, channelId: string, userRef: string | undefined): Place {
  const channel = platform.world.channels.get(channelId)
  if (channel === undefined) throw new Error(`Cannot find channel ${channelId} of the message`)
  if (channel.guildId === undefined)
    return { user: channel.recipient ?? platform.world.user(userRef), guild: undefined, channel }
  const guild = platform.world.guild(channel.guildId)
  const user = platform.world.user(userRef)
  platform.world.member(guild, user)
  return { user, guild, channel }
}

function guildFields(platform: Platform, { user, guild, channel }: Place) {
  if (guild === undefined)
    return {
      user: userObject(user),
      app_permissions: ALL_PERMISSIONS.toString(),
      context: InteractionContextType.BotDM,
    }
  const member = platform.world.member(guild, user)
  const permissions = memberPermissions(guild, member, channel).toString()
  return {
    guild_id: guild.id,
    guild: { id: guild.id, locale: guild.locale as Locale, features: [] },
    guild_locale: guild.locale as Locale,
    member: { ...memberObject(member), permissions } satisfies APIInteractionGuildMember,
    app_permissions: botPermissions(guild, platform.world.bot.id, channel).toString(),
    context: InteractionContextType.Guild,
  }
}

function owners({ user, guild }: Place) {
  if (guild?.install === 'user') return { [ApplicationIntegrationType.UserInstall]: user.id }
  return { [ApplicationIntegrationType.GuildInstall]: guild?.id ?? '0' }
}

/** What interactions of all types have in common. Field list: Discord developer docs, receiving-and-responding. */
export function commonFrame<T extends InteractionType>(platform: Platform, place: Place, type: T) {
  return {
    id: platform.ids.next(),
    application_id: platform.world.applicationId,
    type,
    token: randomBytes(64).toString('base64url'),
    version: 1 as const,
    channel_id: place.channel.id,
    channel: channelObject(place.channel),
    locale: place.user.locale as Locale,
    entitlements: [],
    authorizing_integration_owners: owners(place),
    attachment_size_limit: FILE_BYTES,
    ...guildFields(platform, place),
  }
}
