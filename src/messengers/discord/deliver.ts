import { createHash } from 'node:crypto'
import { setTimeout as wait } from 'node:timers/promises'
import { type APIAllowedMentions, ComponentType, MessageFlags, type REST, Routes } from 'discord.js'
import { z } from 'zod'
import type { Answered } from '#src/desk/desk.ts'
import { BoundedMap } from '#src/memory/bounded-map.ts'
import { guildOfKey } from './crews.ts'
import { DeliveryFailed } from './delivery-failed.ts'
import { languageFor } from './language.ts'
import { MESSAGE } from './limits.ts'
import { DEFAULT_FILE_BYTES, type Drawing, drawFiles, type ReadyFile } from './pictures.ts'
import { troubleOf } from './platform-error.ts'
import { type MessageBody, renderMessage } from './render.ts'
import { rawFiles } from './responder.ts'

/** Where an unasked message goes: to a person, or for the crew into a channel. */
export interface DiscordAddress {
  readonly crewKey: string
  readonly personKey: string
  /** Where a message for the crew shows, and where a person is called who takes no direct messages. */
  readonly channelKey?: string | null
}

/** What was sent, and by which way it arrived. */
export interface Delivered {
  readonly messageId: string
  readonly channelId: string
  readonly way: 'direct' | 'channel'
}

export type DeliverOnDiscord = (
  address: DiscordAddress,
  answered: Answered,
  nonce: string,
) => Promise<Delivered>

export interface DeliverParts extends Drawing {
  readonly rest: REST
  /** Waits before further attempts, in milliseconds. @default 1, 4 and 12 seconds */
  readonly pausesMs?: readonly number[]
}

/** Together with the calls themselves this stays below the minute for which a message is claimed. */
const PAUSES_MS = [1000, 4000, 12_000]
const PATIENCE_MS = 40_000

/**
 * Sends what nobody asked for. The platform makes no second message of the same nonce within some minutes, so an
 * attempt whose answer was lost is safely made again. @throws DeliveryFailed
 */
export function deliverer(parts: DeliverParts): DeliverOnDiscord {
  const directChannels = new BoundedMap<string, string>(10_000)
  const pauses = parts.pausesMs ?? PAUSES_MS

  async function attempt<T>(call: (signal: AbortSignal) => Promise<T>): Promise<T> {
    const untilMs = Date.now() + PATIENCE_MS
    for (const pauseMs of [...pauses, null]) {
      try {
        return await call(AbortSignal.timeout(Math.max(untilMs - Date.now(), 1)))
      } catch (error) {
        const trouble = troubleOf(error)
        const again = trouble === 'later'
        if (!again || pauseMs === null || Date.now() + pauseMs >= untilMs)
          throw new DeliveryFailed(trouble, again, error)
        await wait(pauseMs * (0.75 + Math.random() / 2))
      }
    }
    throw new DeliveryFailed('later', true, undefined)
  }

  async function directChannelOf(personKey: string): Promise<string> {
    const known = directChannels.get(personKey)
    if (known !== undefined) return known
    const { id } = Channel.parse(
      await attempt((signal) =>
        parts.rest.post(Routes.userChannels(), { body: { recipient_id: personKey }, signal }),
      ),
    )
    directChannels.set(personKey, id)
    return id
  }

  async function send(channelId: string, message: Drawn, nonce: string): Promise<string> {
    const body = { ...message.body, nonce, enforce_nonce: true }
    const sent = await attempt((signal) =>
      parts.rest.post(Routes.channelMessages(channelId), { body, files: rawFiles(message.files), signal }),
    )
    return Channel.parse(sent).id
  }

  async function toChannel(address: DiscordAddress, answered: Answered, nonce: string, cause?: unknown) {
    const channelId = address.channelKey ?? null
    if (channelId === null)
      throw cause ?? new DeliveryFailed('gone', false, new Error('No channel is known for this person'))
    const message = await drawn(parts, answered, { shared: true, guild: null, call: address.personKey })
    return { messageId: await send(channelId, message, nonce), channelId, way: 'channel' as const }
  }

  return async (address, answered, rawNonce) => {
    const nonce = fitNonce(rawNonce)
    if (answered.reply.audience === 'crew' && (address.channelKey ?? null) !== null)
      return toChannel(address, answered, nonce)
    try {
      const channelId = await directChannelOf(address.personKey)
      const guild = guildOfKey(address.crewKey)
      const message = await drawn(parts, answered, { shared: false, guild, call: null })
      return { messageId: await send(channelId, message, nonce), channelId, way: 'direct' }
    } catch (error) {
      if (!(error instanceof DeliveryFailed) || error.again || error.trouble === 'token-refused') throw error
      directChannels.delete(address.personKey)
      return toChannel(address, answered, nonce, error)
    }
  }
}

const Channel = z.object({ id: z.string() })

interface Drawn {
  readonly body: MessageBody
  readonly files: readonly ReadyFile[]
}

async function drawn(
  parts: DeliverParts,
  answered: Answered,
  to: { readonly shared: boolean; readonly guild: string | null; readonly call: string | null },
): Promise<Drawn> {
  const locale = languageFor(answered, to.shared && answered.reply.audience === 'crew')
  const files = await drawFiles(parts, answered, { locale, mostBytes: DEFAULT_FILE_BYTES })
  const body = renderMessage(parts.words, answered, {
    shared: to.shared,
    locale,
    guild: to.guild,
    files: { kind: 'ready', ...files },
    spare: to.call === null ? 0 : CALL,
  })
  const isOpen = { ...body, flags: body.flags & ~MessageFlags.Ephemeral }
  return { body: to.call === null ? isOpen : calling(isOpen, to.call), files: files.files }
}

/** Room for one mention: `<@`, an id of up to twenty digits, `>`. */
const CALL = 24

/** The same message, calling one person and nobody else. */
function calling(body: MessageBody, personKey: string): MessageBody {
  const mentions: APIAllowedMentions = { parse: [], users: [personKey] }
  const call = { type: ComponentType.TextDisplay as const, content: `<@${personKey}>` }
  return { ...body, components: [call, ...body.components], allowed_mentions: mentions }
}

/** Within the platform's 25 characters, and still the same for the same message. */
export function fitNonce(nonce: string): string {
  if (nonce.length > 0 && nonce.length <= MESSAGE.nonce) return nonce
  return createHash('sha256').update(nonce).digest('base64url').slice(0, MESSAGE.nonce)
}
