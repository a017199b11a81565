import { InteractionResponseType, MessageFlags } from 'discord-api-types/v10'
import { FOLLOW_UPS_OUTSIDE, type InteractionRecord } from '../interactions/record.ts'
import { isLoading, type StoredMessage } from '../messages.ts'
import type { Platform } from '../platform.ts'
import { type Answer, noContent, ok, refusals } from './answers.ts'
import { objectBody } from './body.ts'
import { type Call, param, type Route } from './call.ts'
import { createAnswer } from './callback-route.ts'
import { draftMessage } from './draft.ts'

type ForInteraction = (call: Call, platform: Platform, record: InteractionRecord) => Answer
type ForMessage = (
  call: Call,
  platform: Platform,
  record: InteractionRecord,
  message: StoredMessage,
) => Answer

/** Application and token must fit an interaction that was answered; which error tells which is from memory. */
const withInteraction =
  (handle: ForInteraction) =>
  (call: Call, platform: Platform): Answer => {
    if (param(call, 'webhook_id') !== platform.world.applicationId) return refusals.unknownWebhook()
    const found = platform.interactions.forWebhook(param(call, 'webhook_token'))
    if (found.ok) return handle(call, platform, found.record)
    return found.why === 'expired' ? refusals.invalidWebhookToken() : refusals.unknownWebhook()
  }

/** The message meant by the path: `@original`, or one that this token has made. */
const withMessage = (handle: ForMessage) =>
  withInteraction((call, platform, record) => {
    const id = call.params.message_id
    const mine = id === undefined || record.ownIds.has(id) || record.original?.object.id === id
    const message = id === undefined ? record.original : platform.messages.stored.get(id)
    const there = message !== undefined && platform.messages.stored.has(message.object.id)
    return mine && there ? handle(call, platform, record, message) : refusals.unknownMessage()
  })

const editMessage: ForMessage = (call, platform, record, before) => {
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
  if (!drafted.ok) return drafted.answer
  const { object } = platform.messages.edit(before, body, drafted.draft.attachments)
  platform.interactions.events.push({
    kind: 'edit',
    record,
    later: { body, files: call.files, message: object },
  })
  return ok(object)
}

const removeMessage: ForMessage = (_call, platform, record, { object }) => {
  platform.messages.stored.delete(object.id)
  platform.interactions.events.push({ kind: 'delete', record, messageId: object.id })
  return noContent
}

/**
 * A follow-up straight after a deferral fills the waiting message instead of making one, and keeps who sees it
 * (Discord developer docs, receiving-and-responding, "Followup Messages"; deprecated there).
 */
const isPromised = (record: InteractionRecord): record is InteractionRecord & { original: StoredMessage } =>
  record.response?.type === InteractionResponseType.DeferredChannelMessageWithSource &&
  record.original !== undefined &&
  isLoading(record.original.object)

const followUp: ForInteraction = (call, platform, record) => {
  const body = objectBody(call.json)
  const use = 'followUp'
  const channelId = record.channel.id
  const promised = isPromised(record) ? record.original : undefined
  if (
    promised === undefined &&
    record.guild?.install === 'user' &&
    record.followUpCount >= FOLLOW_UPS_OUTSIDE
  )
    return refusals.tooManyFollowUps()
  const drafted = draftMessage(platform, {
    body,
    files: call.files,
    use,
    before: promised,
    channelId,
    request: call.request,
  })
  if (!drafted.ok) return drafted.answer
  const { attachments } = drafted.draft
  const kept = { ...body, flags: Number(body.flags ?? 0) & ~MessageFlags.Ephemeral }
  const message =
    promised === undefined
      ? createAnswer(platform, record, body, attachments)
      : platform.messages.edit(promised, kept, attachments)
  record.followUpCount += 1
  record.ownIds.add(message.object.id)
  platform.interactions.events.push({
    kind: promised === undefined ? 'followUp' : 'edit',
    record,
    later: { body, files: call.files, message: message.object },
  })
  return ok(message.object)
}

const BASE = '/webhooks/{webhook_id}/{webhook_token}'
const one = [`${BASE}/messages/@original`, `${BASE}/messages/{message_id}`]

export const webhookRoutes: Route[] = [
  { method: 'POST', template: BASE, bot: false, handle: withInteraction(followUp) },
  ...one.flatMap((template): Route[] => [
    { method: 'GET', template, bot: false, handle: withMessage((_c, _p, _r, message) => ok(message.object)) },
    { method: 'PATCH', template, bot: false, handle: withMessage(editMessage) },
    { method: 'DELETE', template, bot: false, handle: withMessage(removeMessage) },
  ]),
]
