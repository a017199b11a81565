import { type APIOverwrite, PermissionFlagsBits } from 'discord-api-types/v10'
import type { WorldChannel, WorldGuild, WorldMember } from './world.ts'

export const ALL_PERMISSIONS = Object.values(PermissionFlagsBits).reduce((all, bit) => all | bit, 0n)

export const EVERYDAY_PERMISSIONS =
  PermissionFlagsBits.ViewChannel |
  PermissionFlagsBits.SendMessages |
  PermissionFlagsBits.EmbedLinks |
  PermissionFlagsBits.AttachFiles |
  PermissionFlagsBits.ReadMessageHistory |
  PermissionFlagsBits.UseApplicationCommands

const apply = (bits: bigint, overwrites: APIOverwrite[]) => {
  const deny = overwrites.reduce((all, each) => all | BigInt(each.deny), 0n)
  const allow = overwrites.reduce((all, each) => all | BigInt(each.allow), 0n)
  return (bits & ~deny) | allow
}

/** Role bits, then the channel's overwrites: everyone, roles, the person. Order from the docs' permissions page. */
function inChannel(bits: bigint, who: { id: string; roleIds: string[] }, at: WorldChannel, guildId: string) {
  if ((bits & PermissionFlagsBits.Administrator) !== 0n) return ALL_PERMISSIONS
  const everyone = at.overwrites.filter((each) => each.id === guildId)
  const byRole = at.overwrites.filter((each) => each.id !== guildId && who.roleIds.includes(each.id))
  const own = at.overwrites.filter((each) => each.id === who.id)
  return apply(apply(apply(bits, everyone), byRole), own)
}

/** What a member may do in a channel, overwrites applied. */
export function memberPermissions(guild: WorldGuild, member: WorldMember, channel: WorldChannel): bigint {
  if (guild.owner.id === member.user.id) return ALL_PERMISSIONS
  const bits = member.roles.reduce((all, role) => all | role.permissions, guild.everyone)
  const roleIds = member.roles.map((role) => role.id)
  return inChannel(bits, { id: member.user.id, roleIds }, channel, guild.id)
}

/** What the bot may do in a guild's channel, overwrites applied. */
export function botPermissions(guild: WorldGuild, botId: string, channel: WorldChannel): bigint {
  return inChannel(guild.botPermissions, { id: botId, roleIds: [] }, channel, guild.id)
}
