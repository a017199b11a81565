import { SnowflakeUtil } from 'discord.js'
import type { FileHandle, OptionValue } from '#src/conversation/ask.ts'
import { type Marks, readCustomId, readHead } from './custom-id.ts'
import { type Fields, type Filled, readFields } from './form-fields.ts'
import { type CommandOption, InteractionPayload, type SentAttachment, type SourceMessage } from './payload.ts'

/** What an interaction asks for. */
export type Wish =
  | {
      readonly kind: 'run'
      readonly command: string
      readonly options: Readonly<Record<string, OptionValue>>
    }
  | { readonly kind: 'press'; readonly token: string; readonly marks: Marks }
  | { readonly kind: 'submit'; readonly token: string; readonly marks: Marks; readonly fields: Fields }
  | { readonly kind: 'working'; readonly turnId: number }
  | { readonly kind: 'language'; readonly turnId: number; readonly language: string }
  | { readonly kind: 'pick-crew'; readonly crewKey: string }
  | {
      readonly kind: 'suggest'
      readonly command: string
      readonly option: string
      readonly typed: string
      readonly options: Readonly<Record<string, OptionValue>>
    }

/** One interaction, free of the platform's shapes except what answering it takes. */
export interface Incoming {
  readonly id: string
  readonly applicationId: string
  readonly token: string
  /** When it was made, by the platform's clock. */
  readonly atMs: number
  readonly person: {
    readonly id: string
    readonly name: string
    readonly roles: readonly string[]
    readonly runsServer: boolean
    readonly locale: string
  }
  /** Null in a direct message. */
  readonly guild: { readonly id: string; readonly locale: string } | null
  readonly channelId: string | null
  /** Server named by the button, in a direct message. */
  readonly guildOfId: string | null
  /** The message whose button was pressed, or that a form was opened from. */
  readonly source: SourceMessage | null
  readonly mostFileBytes: number | null
  readonly wish: Wish
}

export type Read =
  | { readonly ok: true; readonly incoming: Incoming }
  | { readonly ok: false; readonly problem: string }

/** An interaction as the gateway sent it. Malformed ones are a value: they must not end anything. */
export function readInteraction(raw: unknown): Read {
  const parsed = InteractionPayload.safeParse(raw)
  if (!parsed.success) {
    const fields = parsed.error.issues.map((issue) => issue.path.join('.'))
    return { ok: false, problem: `malformed: ${[...new Set(fields)].slice(0, 8).join(', ')}` }
  }
  const payload = parsed.data
  const person = personOf(payload)
  if (person === null) return { ok: false, problem: 'malformed: nobody sent it' }
  const { wish, guildOfId } = wishOf(payload)
  return {
    ok: true,
    incoming: {
      id: payload.id,
      applicationId: payload.application_id,
      token: payload.token,
      atMs: SnowflakeUtil.timestampFrom(payload.id),
      person,
      guild:
        payload.guild_id === undefined
          ? null
          : { id: payload.guild_id, locale: payload.guild_locale ?? payload.locale },
      channelId: payload.channel?.id ?? payload.channel_id ?? null,
      guildOfId,
      source: payload.message ?? null,
      mostFileBytes: payload.attachment_size_limit ?? null,
      wish,
    },
  }
}

/** Permission bits of those who run a server: Administrator and Manage Server (Discord developer docs, permissions). */
const RUNS_SERVER = (1n << 3n) | (1n << 5n)

function personOf({ member, user, locale }: InteractionPayload): Incoming['person'] | null {
  const who = member?.user ?? user
  if (who === undefined) return null
  return {
    id: who.id,
    name: member?.nick ?? who.global_name ?? who.username,
    roles: member?.roles ?? [],
    runsServer: member !== undefined && (permissionBits(member.permissions) & RUNS_SERVER) !== 0n,
    locale,
  }
}

const permissionBits = (text: string) => (/^\d{1,40}$/.test(text) ? BigInt(text) : 0n)

function wishOf(payload: InteractionPayload): { wish: Wish; guildOfId: string | null } {
  switch (payload.type) {
    case 2:
      return { wish: { kind: 'run', ...commandOf(payload.data) }, guildOfId: null }
    case 4: {
      const { command, options, focused } = commandOf(payload.data)
      const option = focused?.name ?? ''
      return {
        wish: { kind: 'suggest', command, options, option, typed: String(focused?.value ?? '') },
        guildOfId: null,
      }
    }
    case 3:
      return pressOf(payload.data)
    case 5: {
      const { head, marks, guild } = readCustomId(payload.data.custom_id)
      const filled = payload.data.components
        .flatMap((row) => row.component ?? row.components ?? [])
        .map(filledOf)
      const fields = readFields(filled, handlesOf(payload.data.resolved?.attachments))
      return { wish: { kind: 'submit', token: head, marks, fields }, guildOfId: guild }
    }
    default:
      return payload satisfies never
  }
}

function pressOf(data: { custom_id: string; values: string[] }): { wish: Wish; guildOfId: string | null } {
  const { head, marks, guild } = readCustomId(data.custom_id)
  const own = readHead(head)
  const chosen = data.values[0] ?? ''
  if (own === null) return { wish: { kind: 'press', token: head, marks }, guildOfId: guild }
  if (own.kind === 'crew') return { wish: { kind: 'pick-crew', crewKey: chosen }, guildOfId: null }
  if (own.kind === 'menu') return { wish: { kind: 'press', token: chosen, marks }, guildOfId: guild }
  return { wish: own, guildOfId: guild }
}

/** A subcommand is written with its group: `site add`. */
function commandOf(data: {
  name: string
  options: readonly CommandOption[]
  resolved?: { attachments?: Record<string, SentAttachment> | undefined } | undefined
}) {
  let names = [data.name]
  let given = data.options
  for (let nested = given[0]; nested?.options !== undefined || nested?.type === 1; nested = given[0]) {
    names = [...names, nested.name]
    given = nested.options ?? []
  }
  const handles = handlesOf(data.resolved?.attachments)
  const options: Record<string, OptionValue> = {}
  for (const { name, type, value } of given) {
    const handle = type === ATTACHMENT ? handles.get(String(value)) : undefined
    if (handle !== undefined) options[name] = handle
    else if (value !== undefined) options[name] = value
  }
  return { command: names.join(' '), options, focused: given.find((option) => option.focused) }
}

/** Option type of a file (Discord developer docs, interactions/application-commands). */
const ATTACHMENT = 11

function filledOf(child: {
  custom_id: string
  value?: string | boolean | null | undefined
  values?: string[] | undefined
}): Filled {
  const value = child.value === null || child.value === undefined ? null : String(child.value)
  return { customId: child.custom_id, value, values: child.values ?? [] }
}

function handlesOf(attachments: Record<string, SentAttachment> | undefined): Map<string, FileHandle> {
  return new Map(
    Object.values(attachments ?? {}).map((file) => [
      file.id,
      { name: file.filename, type: file.content_type ?? '', bytes: file.size, url: file.url },
    ]),
  )
}
