import {
  type APIMessage,
  type APIMessageInteractionMetadata,
  InteractionResponseType,
  InteractionType,
  MessageFlags,
  MessageType,
} from 'discord-api-types/v10'
import type { InteractionRecord } from '../interactions/record.ts'
import { isLoading, isV2Message, type StoredMessage } from '../messages.ts'
import type { Platform } from '../platform.ts'
import { checkCallback } from '../rules/callback.ts'
import type { Json } from '../rules/check.ts'
import { userObject } from '../world/objects.ts'
import { type Answer, invalidForm, noContent, ok, refusals } from './answers.ts'
import { objectBody } from './body.ts'
import { type Call, param, type Route } from './call.ts'
import { draftMessage, namesOfFiles } from './draft.ts'

const { ChannelMessageWithSource, DeferredChannelMessageWithSource, DeferredMessageUpdate, UpdateMessage } =
  InteractionResponseType

/** Interactions ping users only, unless told otherwise (Discord developer docs, resources/message). */
export const INTERACTION_PINGS = ['users']

/** How a message came about: by whom, from which message, after which form. */
function metadataOf(record: InteractionRecord): Json {
  const { id, type, user, frame, source, opener } = record
  return {
    id,
    type,
    user: userObject(user),
    authorizing_integration_owners: frame.authorizing_integration_owners,
    ...(source !== undefined && opener === undefined ? { interacted_message_id: source.object.id } : {}),
    ...(opener === undefined ? {} : { triggering_interaction_metadata: metadataOf(opener) }),
  }
}

/** Fields that mark a message as an answer to an interaction. */
function answerFields(platform: Platform, record: InteractionRecord): Partial<APIMessage> {
  return {
    webhook_id: platform.world.applicationId,
    application_id: platform.world.applicationId,
    interaction_metadata: metadataOf(record) as unknown as APIMessageInteractionMetadata,
  }
}

/** A new message of the bot in the interaction's channel. */
export function createAnswer(
  platform: Platform,
  record: InteractionRecord,
  body: Json,
  attachments: Parameters<Platform['messages']['create']>[2],
): StoredMessage {
  const ephemeral = (Number(body.flags ?? 0) & MessageFlags.Ephemeral) !== 0
  return platform.messages.create(
    {
      channelId: record.channel.id,
      author: userObject(platform.world.bot),
      type:
        record.type === InteractionType.ApplicationCommand ? MessageType.ChatInputCommand : MessageType.Reply,
      onlyFor: ephemeral ? record.user.id : undefined,
      extra: answerFields(platform, record),
      defaultPings: INTERACTION_PINGS,
    },
    body,
    attachments,
  )
}

type Outcome = { ok: true; original: StoredMessage | undefined } | { ok: false; answer: Answer }

/** Carries the callback out: makes, updates or promises a message, or only takes note. */
function carryOut(call: Call, platform: Platform, record: InteractionRecord, body: Json): Outcome {
  const data = objectBody(body.data)
  const before = body.type === UpdateMessage ? record.source : undefined
  const judged = checkCallback(body, {
    type: record.type,
    focusedType: record.focusedType,
    hasMessage: record.source !== undefined,
    message: {
      fileNames: namesOfFiles(data, call.files, before),
      ...(before === undefined ? {} : { before: { v2: isV2Message(before.object) } }),
    },
  })
  if (body.type === ChannelMessageWithSource || (body.type === UpdateMessage && judged.clean)) {
    const use = body.type === UpdateMessage ? 'edit' : 'reply'
    const channelId = record.channel.id
    const drafted = draftMessage(platform, {
      body: data,
      files: call.files,
      use,
      before,
      channelId,
      request: call.request,
      judged,
    })
    if (!drafted.ok) return drafted
    const { attachments } = drafted.draft
    const original =
      before === undefined
        ? createAnswer(platform, record, data, attachments)
        : platform.messages.edit(before, data, attachments)
    return { ok: true, original }
  }
  platform.ledger.note(call.request, judged.breaches, judged.warnings)
  if (!judged.clean) return { ok: false, answer: invalidForm(judged) }
  if (body.type === DeferredMessageUpdate) return { ok: true, original: record.source }
  if (body.type !== DeferredChannelMessageWithSource) return { ok: true, original: undefined }
  const flags = Number(data.flags ?? 0) | MessageFlags.Loading
  return { ok: true, original: createAnswer(platform, record, { flags }, []) }
}

/** The body of a 200 for `with_response=true`. */
function responseObject(record: InteractionRecord, type: unknown, original: StoredMessage | undefined) {
  const { id, type: interactionType, channel, guild } = record
  const message = original?.object
  return {
    interaction: {
      id,
      type: interactionType,
      channel_id: channel.id,
      ...(guild === undefined ? {} : { guild_id: guild.id }),
      ...(message === undefined
        ? {}
        : {
            response_message_id: message.id,
            response_message_loading: isLoading(message),
            response_message_ephemeral: original?.onlyFor !== undefined,
          }),
    },
    ...(message === undefined ? {} : { resource: { type, message } }),
  }
}

function firstResponse(call: Call, platform: Platform): Answer {
  const record = platform.interactions.forCallback(
    param(call, 'interaction_id'),
    param(call, 'interaction_token'),
  )
  if (record === undefined) return refusals.unknownInteraction()
  if (record.response !== undefined) return refusals.alreadyAcknowledged()
  const body = objectBody(call.json)
  const outcome = carryOut(call, platform, record, body)
  if (!outcome.ok) return outcome.answer
  record.original = outcome.original
  record.response = {
    type: body.type as InteractionResponseType,
    body,
    data: objectBody(body.data),
    files: call.files,
    message: outcome.original?.object,
    afterMs: platform.clock.nowMs() - record.createdAtMs,
  }
  platform.interactions.events.push({ kind: 'response', record, response: record.response })
  if (call.query.get('with_response') !== 'true') return noContent
  return ok(responseObject(record, body.type, outcome.original))
}

export const callbackRoutes: Route[] = [
  {
    method: 'POST',
    template: '/interactions/{interaction_id}/{interaction_token}/callback',
    bot: false,
    handle: firstResponse,
  },
]
