import { MessageFlags } from 'discord-api-types/v10'
import {
  anything,
  type Check,
  choice,
  isObject,
  type Json,
  list,
  listOf,
  maybe,
  shape,
  snowflake,
  text,
  truth,
} from './check.ts'
import { checkComponents } from './components.ts'
import { checkEmbeds } from './embeds.ts'
import type { Findings, Path } from './findings.ts'

/** Discord developer docs, resources/message. */
export const CONTENT_CHARACTERS = 2000
export const NONCE_CHARACTERS = 25
export const FILES_PER_MESSAGE = 10

/** Which call the body belongs to: it decides which flags and fields may stand in it. */
export type MessageUse = 'channel' | 'reply' | 'followUp' | 'edit'

export interface MessageContext {
  use: MessageUse
  /** Names of the files that this message carries, kept and new. */
  fileNames: readonly string[]
  /** The message as it was, for edits. */
  before?: { v2: boolean }
}

const MAY_SET: Record<MessageUse, number> = {
  channel: MessageFlags.SuppressEmbeds | MessageFlags.SuppressNotifications | MessageFlags.IsComponentsV2,
  reply:
    MessageFlags.Ephemeral |
    MessageFlags.SuppressEmbeds |
    MessageFlags.SuppressNotifications |
    MessageFlags.IsComponentsV2,
  followUp:
    MessageFlags.Ephemeral |
    MessageFlags.SuppressEmbeds |
    MessageFlags.SuppressNotifications |
    MessageFlags.IsComponentsV2,
  edit: MessageFlags.SuppressEmbeds | MessageFlags.IsComponentsV2,
}

const mentionKinds = shape({
  parse: maybe(list(choice('users', 'roles', 'everyone'), 0, 3)),
  users: maybe(list(snowflake, 0, 100)),
  roles: maybe(list(snowflake, 0, 100)),
  replied_user: maybe(truth),
})

const allowedMentions: Check = (value, path, findings) => {
  mentionKinds(value, path, findings)
  if (!isObject(value)) return
  for (const kind of ['users', 'roles'])
    if (listOf(value.parse).includes(kind) && listOf(value[kind]).length > 0)
      findings.breach(
        [...path, 'parse'],
        'MESSAGE_ALLOWED_MENTIONS_PARSE_EXCLUSIVE',
        `parse:["${kind}"] and ${kind}: [ids...] are mutually exclusive.`,
      )
}

const nonce: Check = (value, path, findings) => {
  if (typeof value === 'number' && Number.isInteger(value)) return
  text(0, NONCE_CHARACTERS)(value, path, findings)
}

const attachment = shape({
  id: (value, path, findings) => {
    if (!/^\d+$/.test(String(value)))
      findings.breach(path, 'NUMBER_TYPE_COERCE', `Value "${String(value)}" is not snowflake.`)
  },
  filename: maybe(text(1, 1024)),
  description: maybe(text(0, 1024)),
  title: maybe(text(0, 1024)),
  ...Object.fromEntries(
    [
      'size',
      'url',
      'proxy_url',
      'content_type',
      'width',
      'height',
      'ephemeral',
      'flags',
      'duration_secs',
    ].map((key) => [key, anything]),
  ),
  waveform: anything,
})

const common = {
  content: maybe(text(0, CONTENT_CHARACTERS)),
  tts: maybe(truth),
  nonce: maybe(nonce),
  enforce_nonce: maybe(truth),
  embeds: anything,
  components: anything,
  allowed_mentions: maybe(allowedMentions),
  attachments: maybe(list(attachment, 0, FILES_PER_MESSAGE)),
  flags: anything,
  poll: anything,
}

const BODY: Record<MessageUse, Check> = {
  channel: shape({
    ...common,
    message_reference: anything,
    sticker_ids: maybe(list(snowflake, 0, 3)),
    shared_client_theme: anything,
  }),
  reply: shape(common),
  followUp: shape(common),
  edit: shape(common),
}

function checkFlags(value: unknown, use: MessageUse, path: Path, findings: Findings) {
  if (value === undefined || value === null) return
  if (typeof value !== 'number' || !Number.isInteger(value) || value < 0)
    return findings.breach(path, 'NUMBER_TYPE_COERCE', `Value "${String(value)}" is not int.`)
  if ((value & ~MAY_SET[use]) !== 0)
    findings.breach(path, 'MESSAGE_FLAGS_INVALID', `Flags ${value} cannot be set here.`)
}

const isPresent = (value: unknown) =>
  value !== undefined && value !== null && value !== '' && !(Array.isArray(value) && value.length === 0)

function checkV2Exclusive(body: Json, path: Path, findings: Findings): void {
  for (const field of ['content', 'embeds', 'poll', 'sticker_ids'])
    if (isPresent(body[field]))
      findings.breach(
        [...path, field],
        'MESSAGE_CANNOT_USE_LEGACY_FIELDS_WITH_COMPONENTS_V2',
        `The '${field}' field cannot be used when using MessageFlags.IS_COMPONENTS_V2`,
      )
}

/** Whether the body, on its own or added to what was there, is a V2 message. */
export function isV2(body: Json, before: { v2: boolean } | undefined): boolean {
  return before?.v2 === true || (Number(body.flags ?? 0) & MessageFlags.IsComponentsV2) !== 0
}

/** Every rule for a message body as sent; what it amounts to after an edit is judged by `isBlank`. */
export function checkMessage(body: unknown, path: Path, findings: Findings, context: MessageContext): void {
  BODY[context.use](body, path, findings)
  if (!isObject(body)) return
  checkFlags(body.flags, context.use, [...path, 'flags'], findings)
  const v2 = isV2(body, context.before)
  if (v2) checkV2Exclusive(body, path, findings)
  if (body.embeds !== undefined && body.embeds !== null)
    checkEmbeds(body.embeds, [...path, 'embeds'], findings, context.fileNames)
  if (body.components !== undefined && body.components !== null)
    checkComponents(body.components, [...path, 'components'], findings, { v2, fileNames: context.fileNames })
}

/** What a message amounts to, after an edit as well. */
export interface MessageSum {
  content: string
  embeds: unknown[]
  components: unknown[]
  /** Files, stickers and polls. */
  others: number
}

/** Nothing to show: error 50006. */
export function isBlank({ content, embeds, components, others }: MessageSum): boolean {
  return content.trim() === '' && embeds.length === 0 && components.length === 0 && others === 0
}
