import type { APIMessage } from 'discord-api-types/v10'
import { isObject, listOf } from './rules/check.ts'
import { walkComponents } from './rules/parts.ts'

/** Discord developer docs, reference, "Message Formatting". */
const USER = /<@!?(\d{17,20})>/g
const ROLE = /<@&(\d{17,20})>/g
const EVERYONE = /@(everyone|here)/

/** Text that can ping: the content and the text displays. Embeds never ping. */
function pingingText(message: APIMessage): string {
  const displays = [...walkComponents(message.components ?? [], [])].map(({ one }) => one.content)
  return [message.content, ...displays.filter((each) => typeof each === 'string')].join('\n')
}

const idsIn = (text: string, pattern: RegExp) => [
  ...new Set([...text.matchAll(pattern)].map((m) => m[1] ?? '')),
]

/**
 * Who is pinged by a message: named in it and allowed by `allowed_mentions`, or, without that, by the default
 * of the call (interactions ping users only).
 */
export function findMentions(
  message: APIMessage,
  allowed: unknown,
  defaultPings: readonly string[],
): Pick<APIMessage, 'mentions' | 'mention_roles' | 'mention_everyone'> {
  const text = pingingText(message)
  const rules = isObject(allowed) ? allowed : { parse: defaultPings }
  const may = (kind: 'users' | 'roles', id: string) =>
    listOf(rules.parse).includes(kind) || listOf(rules[kind]).includes(id)
  return {
    mentions: idsIn(text, USER)
      .filter((id) => may('users', id))
      .map((id) => ({
        id,
        username: 'demo',
        discriminator: '0',
        global_name: null,
        avatar: null,
        public_flags: 0 as never,
        flags: 0 as never,
        primary_guild: null,
      })),
    mention_roles: idsIn(text, ROLE).filter((id) => may('roles', id)),
    mention_everyone: EVERYONE.test(text) && listOf(rules.parse).includes('everyone'),
  }
}
