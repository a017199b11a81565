import { InteractionType } from 'discord-api-types/v10'
import type { DiscordStandIn } from '../index.ts'
import type { ErrorBody } from '../rest/answers.ts'
import type { ErrorTree } from '../rules/findings.ts'

export interface Verdict {
  status: number
  code: number | undefined
  /** Dotted paths with their codes, e.g. `embeds.0.title BASE_TYPE_MAX_LENGTH`. */
  errors: string[]
}

function* leaves(tree: ErrorTree, path: string[] = []): Generator<string> {
  for (const [key, value] of Object.entries(tree)) {
    if (Array.isArray(value)) for (const each of value) yield [path.join('.'), each.code].join(' ').trim()
    else yield* leaves(value, [...path, key])
  }
}

/** Calls a route with a body, without a client in between. */
export async function call(
  discord: DiscordStandIn,
  method: string,
  path: string,
  body: unknown,
): Promise<Verdict> {
  const response = await fetch(`${discord.api}/v10${path}`, {
    method,
    headers: { authorization: `Bot ${discord.token}`, 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })
  const answer = response.status === 204 ? {} : ((await response.json()) as Partial<ErrorBody>)
  const refused = response.status >= 400
  return {
    status: response.status,
    code: refused ? answer.code : undefined,
    errors: refused ? [...leaves(answer.errors ?? {})] : [],
  }
}

const fire = (discord: DiscordStandIn, type: InteractionType) =>
  type === InteractionType.ApplicationCommandAutocomplete
    ? discord.autocomplete({ name: 'demo', focused: 'text' })
    : discord.slash({ name: 'demo' })

/** Answers a fresh interaction with a callback body. */
export async function answer(
  discord: DiscordStandIn,
  body: unknown,
  type: InteractionType = InteractionType.ApplicationCommand,
): Promise<Verdict> {
  const { record } = fire(discord, type)
  return call(discord, 'POST', `/interactions/${record.id}/${record.token}/callback`, body)
}
