import { type APIApplicationCommand, ApplicationCommandType } from 'discord-api-types/v10'
import type { Clock } from './clock.ts'
import { isObject, type Json, listOf } from './rules/check.ts'
import type { Snowflakes } from './snowflake.ts'

/** New names that one scope may register in a day. Source: Discord developer docs, application-commands. */
export const CREATES_PER_DAY = 200
const DAY_MS = 24 * 60 * 60 * 1000

/** Options as the platform keeps them: what is false or empty is left out (from memory). */
function keepOption(option: unknown): Json {
  const kept: Json = { ...(isObject(option) ? option : {}) }
  for (const key of ['required', 'autocomplete']) if (kept[key] === false) delete kept[key]
  for (const key of ['choices', 'options']) if (listOf(kept[key]).length === 0) delete kept[key]
  if (Array.isArray(kept.options)) kept.options = kept.options.map(keepOption)
  return kept
}

/** The same without its localizations, as given out unless `with_localizations=true`. */
export function withoutLocalizations<T>(value: T): T {
  if (Array.isArray(value)) return value.map(withoutLocalizations) as T
  if (!isObject(value)) return value
  const entries = Object.entries(value).filter(([key]) => !key.endsWith('_localizations'))
  return Object.fromEntries(entries.map(([key, each]) => [key, withoutLocalizations(each)])) as T
}

const typeOf = (body: Json) => Number(body.type ?? ApplicationCommandType.ChatInput)

/** Registered commands: global ones under '', a guild's under its id. */
export class CommandsBook {
  readonly #scopes = new Map<string, APIApplicationCommand[]>()
  readonly #createdAtMs = new Map<string, number[]>()
  readonly #clock: Clock
  readonly #ids: Snowflakes
  readonly #applicationId: string

  constructor(clock: Clock, ids: Snowflakes, applicationId: string) {
    this.#clock = clock
    this.#ids = ids
    this.#applicationId = applicationId
  }

  list(scope: string): APIApplicationCommand[] {
    return this.#scopes.get(scope) ?? []
  }

  /** What a person in that guild (or in a direct message) finds under a name. */
  find(name: string, guildId: string | undefined): APIApplicationCommand | undefined {
    const all = [...(guildId === undefined ? [] : this.list(guildId)), ...this.list('')]
    return all.find((each) => each.name === name && each.type === ApplicationCommandType.ChatInput)
  }

  /** Whether these bodies bring more new names than the day still allows. */
  overDailyCreates(scope: string, bodies: readonly Json[]): boolean {
    const since = this.#clock.nowMs() - DAY_MS
    const recent = (this.#createdAtMs.get(scope) ?? []).filter((at) => at > since)
    return (
      recent.length + bodies.filter((body) => this.#existing(scope, body) === undefined).length >
      CREATES_PER_DAY
    )
  }

  replaceAll(scope: string, bodies: readonly Json[]): APIApplicationCommand[] {
    const made = bodies.map((body) => this.#make(scope, body))
    this.#scopes.set(scope, made)
    return made
  }

  /** Adds a command, or replaces the one with this name and type. */
  put(scope: string, body: Json): APIApplicationCommand {
    const made = this.#make(scope, body)
    const others = this.list(scope).filter((each) => each.id !== made.id)
    this.#scopes.set(scope, [...others, made])
    return made
  }

  change(scope: string, id: string, body: Json): APIApplicationCommand | undefined {
    const before = this.list(scope).find((each) => each.id === id)
    if (before === undefined) return undefined
    const changed = this.#make(scope, { ...before, ...body }, before)
    this.#scopes.set(
      scope,
      this.list(scope).map((each) => (each === before ? changed : each)),
    )
    return changed
  }

  remove(scope: string, id: string): boolean {
    const before = this.list(scope)
    const after = before.filter((each) => each.id !== id)
    this.#scopes.set(scope, after)
    return after.length < before.length
  }

  #existing(scope: string, body: Json): APIApplicationCommand | undefined {
    return this.list(scope).find((each) => each.name === body.name && each.type === typeOf(body))
  }

  #make(scope: string, body: Json, before = this.#existing(scope, body)): APIApplicationCommand {
    if (before === undefined)
      this.#createdAtMs.set(scope, [...(this.#createdAtMs.get(scope) ?? []), this.#clock.nowMs()])
    const options = listOf(body.options).map(keepOption)
    const scoped =
      scope === ''
        ? { contexts: body.contexts ?? null, integration_types: body.integration_types ?? [0] }
        : { guild_id: scope }
    return {
      ...scoped,
      id: before?.id ?? this.#ids.next(),
      application_id: this.#applicationId,
      version: this.#ids.next(),
      type: typeOf(body),
      name: body.name,
      name_localizations: body.name_localizations ?? null,
      description: body.description ?? '',
      description_localizations: body.description_localizations ?? null,
      default_member_permissions:
        body.default_member_permissions === undefined || body.default_member_permissions === null
          ? null
          : String(body.default_member_permissions),
      nsfw: body.nsfw === true,
      ...(scope === '' ? { dm_permission: body.dm_permission ?? true } : {}),
      ...(options.length === 0 ? {} : { options }),
    } as unknown as APIApplicationCommand
  }
}
