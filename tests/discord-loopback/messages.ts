import {
  type APIAttachment,
  type APIMessage,
  type APIUser,
  MessageFlags,
  type MessageType,
} from 'discord-api-types/v10'
import type { Clock } from './clock.ts'
import { dressComponents, dressEmbeds } from './dress.ts'
import { findMentions } from './mentions.ts'
import { type Json, listOf } from './rules/check.ts'
import type { Snowflakes } from './snowflake.ts'

/** A message and what of it the platform does not show. */
export interface StoredMessage {
  object: APIMessage
  /** For one person's eyes: not to be had by the channel routes. */
  onlyFor: string | undefined
}

export interface NewMessage {
  channelId: string
  author: APIUser
  type: MessageType
  onlyFor?: string | undefined
  /** Fields that an interaction adds: webhook_id, application_id, interaction_metadata. */
  extra?: Partial<APIMessage>
  /** Whom a message without `allowed_mentions` may ping. */
  defaultPings: readonly string[]
}

export const isV2Message = (message: APIMessage): boolean =>
  (Number(message.flags ?? 0) & MessageFlags.IsComponentsV2) !== 0

export const isLoading = (message: APIMessage): boolean =>
  (Number(message.flags ?? 0) & MessageFlags.Loading) !== 0

/** All messages of the stand-in, of all channels, oldest first. */
export class Messages {
  readonly stored = new Map<string, StoredMessage>()
  readonly #clock: Clock
  readonly #ids: Snowflakes

  constructor(clock: Clock, ids: Snowflakes) {
    this.#clock = clock
    this.#ids = ids
  }

  #timestamp(): string {
    return new Date(this.#clock.nowMs()).toISOString().replace('Z', '000+00:00')
  }

  create(as: NewMessage, body: Json, attachments: APIAttachment[]): StoredMessage {
    const object: APIMessage = {
      id: this.#ids.next(),
      channel_id: as.channelId,
      author: as.author,
      type: as.type,
      content: '',
      timestamp: this.#timestamp(),
      edited_timestamp: null,
      tts: false,
      mention_everyone: false,
      mentions: [],
      mention_roles: [],
      attachments: [],
      embeds: [],
      pinned: false,
      flags: 0 as MessageFlags,
      components: [],
      ...as.extra,
    }
    const stored: StoredMessage = { object, onlyFor: as.onlyFor }
    this.#apply(object, body, attachments)
    if (typeof body.nonce === 'string' || typeof body.nonce === 'number') object.nonce = body.nonce
    Object.assign(object, findMentions(object, body.allowed_mentions, as.defaultPings))
    this.stored.set(object.id, stored)
    return stored
  }

  /** Changes what the body names and leaves the rest. `attachments`: all that the message then has. */
  edit(stored: StoredMessage, body: Json, attachments: APIAttachment[]): StoredMessage {
    const { object } = stored
    object.flags = (Number(object.flags ?? 0) & ~MessageFlags.Loading) as MessageFlags
    this.#apply(object, body, attachments)
    object.edited_timestamp = this.#timestamp()
    return stored
  }

  #apply(object: APIMessage, body: Json, attachments: APIAttachment[]): void {
    object.attachments = attachments
    if (body.content !== undefined) object.content = String(body.content ?? '').trim()
    if (body.tts === true) object.tts = true
    if (body.embeds !== undefined) object.embeds = dressEmbeds(listOf(body.embeds), attachments)
    if (body.components !== undefined)
      object.components = dressComponents(listOf(body.components), attachments)
    if (typeof body.flags === 'number')
      object.flags = (Number(object.flags ?? 0) | body.flags) as MessageFlags
  }

  /** A message of that channel that everybody there can see. */
  visible(channelId: string, messageId: string): StoredMessage | undefined {
    const stored = this.stored.get(messageId)
    return stored?.object.channel_id === channelId && stored.onlyFor === undefined ? stored : undefined
  }

  inChannel(channelId: string): StoredMessage[] {
    return [...this.stored.values()].filter((each) => each.object.channel_id === channelId)
  }
}
