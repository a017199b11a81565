import { type APIChannel, MessageType, PermissionFlagsBits } from 'discord-api-types/v10'
import type { StoredMessage } from '../messages.ts'
import type { Platform } from '../platform.ts'
import { type Json, objectsOf } from '../rules/check.ts'
import { channelObject, userObject } from '../world/objects.ts'
import { botPermissions } from '../world/permissions.ts'
import type { WorldChannel } from '../world/world.ts'
import { type Answer, noContent, ok, refusals } from './answers.ts'
import { objectBody } from './body.ts'
import { type Call, param, type Route } from './call.ts'
import { draftMessage } from './draft.ts'

type ForChannel = (call: Call, platform: Platform, channel: WorldChannel) => Answer
type ForMessage = (call: Call, platform: Platform, message: StoredMessage) => Answer

/** Channel messages ping everyone named, unless told otherwise (Discord developer docs, resources/message). */
const CHANNEL_PINGS = ['users', 'roles', 'everyone']

/** Whether the bot may, in that channel; direct messages know no permissions. */
function may(platform: Platform, channel: WorldChannel, bit: bigint): boolean {
  const guild = channel.guildId === undefined ? undefined : platform.world.guilds.get(channel.guildId)
  return guild === undefined || (botPermissions(guild, platform.world.bot.id, channel) & bit) !== 0n
}

const withChannel =
  (handle: ForChannel) =>
  (call: Call, platform: Platform): Answer => {
    const channel = platform.world.channels.get(param(call, 'channel_id'))
    if (channel === undefined) return refusals.unknownChannel()
    const guild = channel.guildId === undefined ? undefined : platform.world.guilds.get(channel.guildId)
    if (guild?.install === 'user' || !may(platform, channel, PermissionFlagsBits.ViewChannel))
      return refusals.missingAccess()
    return handle(call, platform, channel)
  }

const withMessage = (handle: ForMessage) =>
  withChannel((call, platform, channel) => {
    const message = platform.messages.visible(channel.id, param(call, 'message_id'))
    return message === undefined ? refusals.unknownMessage() : handle(call, platform, message)
  })

/** Why the bot cannot write there, if it cannot. */
function sendingProblem(
  platform: Platform,
  channel: WorldChannel,
  body: Json,
  files: number,
): Answer | undefined {
  const person = channel.recipient
  if (person !== undefined) {
    if (!platform.world.sharesGuild(person)) return refusals.noMutualGuilds()
    return person.dmsClosed ? refusals.cannotMessageUser() : undefined
  }
  const needed = [
    PermissionFlagsBits.SendMessages,
    ...(files > 0 ? [PermissionFlagsBits.AttachFiles] : []),
    ...(objectsOf(body.embeds).length > 0 ? [PermissionFlagsBits.EmbedLinks] : []),
  ]
  return needed.every((bit) => may(platform, channel, bit)) ? undefined : refusals.missingPermissions()
}

const send: ForChannel = (call, platform, channel) => {
  const body = objectBody(call.json)
  const problem = sendingProblem(platform, channel, body, call.files.length)
  if (problem !== undefined) return problem
  const enforced = body.enforce_nonce === true && body.nonce !== undefined
  const made = enforced ? platform.nonces.find(channel.id, body.nonce) : undefined
  const earlier = made === undefined ? undefined : platform.messages.stored.get(made)
  if (earlier !== undefined) return ok(earlier.object)
  const drafted = draftMessage(platform, {
    body,
    files: call.files,
    use: 'channel',
    before: undefined,
    channelId: channel.id,
    request: call.request,
  })
  if (!drafted.ok) return drafted.answer
  const { object } = platform.messages.create(
    {
      channelId: channel.id,
      author: userObject(platform.world.bot),
      type: MessageType.Default,
      defaultPings: CHANNEL_PINGS,
    },
    body,
    drafted.draft.attachments,
  )
  if (enforced) platform.nonces.remember(channel.id, body.nonce, object.id)
  return ok(object)
}

const edit: ForMessage = (call, platform, before) => {
  if (before.object.author.id !== platform.world.bot.id) return refusals.notOurMessage()
  const body = objectBody(call.json)
  const channelId = before.object.channel_id
  const drafted = draftMessage(platform, {
    body,
    files: call.files,
    use: 'edit',
    before,
    channelId,
    request: call.request,
  })
  return drafted.ok
    ? ok(platform.messages.edit(before, body, drafted.draft.attachments).object)
    : drafted.answer
}

const remove: ForMessage = (_call, platform, { object }) => {
  if (object.author.id !== platform.world.bot.id) return refusals.missingPermissions()
  platform.messages.stored.delete(object.id)
  return noContent
}

const listMessages: ForChannel = (call, platform, channel) => {
  const limit = Number(call.query.get('limit') ?? 50)
  const shown = platform.messages.inChannel(channel.id).filter((each) => each.onlyFor === undefined)
  return ok(
    shown
      .reverse()
      .slice(0, limit)
      .map((each) => each.object),
  )
}

function openDm(call: Call, platform: Platform): Answer {
  const user = platform.world.users.get(String(objectBody(call.json).recipient_id))
  if (user === undefined) return refusals.invalidRecipients()
  if (!platform.world.sharesGuild(user)) return refusals.noMutualGuilds()
  return ok(channelObject(platform.world.dmChannel(user)) as APIChannel)
}

const ONE = '/channels/{channel_id}/messages/{message_id}'

export const channelRoutes: Route[] = [
  {
    method: 'GET',
    template: '/channels/{channel_id}',
    bot: true,
    handle: withChannel((_c, _p, each) => ok(channelObject(each))),
  },
  {
    method: 'GET',
    template: '/channels/{channel_id}/messages',
    bot: true,
    handle: withChannel(listMessages),
  },
  { method: 'POST', template: '/channels/{channel_id}/messages', bot: true, handle: withChannel(send) },
  { method: 'GET', template: ONE, bot: true, handle: withMessage((_c, _p, message) => ok(message.object)) },
  { method: 'PATCH', template: ONE, bot: true, handle: withMessage(edit) },
  { method: 'DELETE', template: ONE, bot: true, handle: withMessage(remove) },
  {
    method: 'POST',
    template: '/channels/{channel_id}/typing',
    bot: true,
    handle: withChannel(() => noContent),
  },
  { method: 'POST', template: '/users/@me/channels', bot: true, handle: openDm },
]
