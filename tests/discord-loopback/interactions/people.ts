import {
  type APIInteraction,
  type APIMessage,
  ApplicationCommandType,
  ComponentType,
  GatewayDispatchEvents,
  InteractionResponseType,
  InteractionType,
} from 'discord-api-types/v10'
import type { StoredMessage } from '../messages.ts'
import type { Platform } from '../platform.ts'
import type { Json } from '../rules/check.ts'
import { walkComponents } from '../rules/parts.ts'
import { findCommand, nest } from './command-line.ts'
import { Fired } from './fired.ts'
import { type FieldValues, fillChoices, fillForm, fillReferences } from './form.ts'
import { commonFrame, findPlace, type PlaceSeed, placeOfMessage } from './frame.ts'
import { type OptionValues, runOptions, typingOptions } from './options.ts'
import type { InteractionRecord, Place } from './record.ts'
import { Resolved } from './resolved.ts'

export interface SlashSeed extends PlaceSeed {
  /** Command, with group and subcommand after blanks. */
  name: string
  options?: OptionValues
  /** Fields left out of the frame, to make a malformed one. */
  omit?: readonly string[]
}

export interface AutocompleteSeed extends SlashSeed {
  /** The option that is being typed; its text so far stands in `options`. */
  focused: string
}

export interface PressSeed {
  /** The message, or its id. */
  message: APIMessage | string
  customId: string
  /** @default the person whom the message answers */
  user?: string
}

export interface SelectSeed extends PressSeed {
  /** Values, or names or ids of people, roles, channels. */
  values: string[]
}

export interface SubmitSeed {
  /** The interaction that opened the form. @default the latest form of that custom id */
  from?: Fired
  customId?: string
  fields?: FieldValues
  /** @default the person for whom it was opened */
  user?: string
}

type About = Pick<InteractionRecord, 'source' | 'opener' | 'focusedType'> & {
  omit: readonly string[] | undefined
}

/** Plays the people: does what their client would let them do, and throws where it would not. */
export class People {
  readonly #platform: Platform

  constructor(platform: Platform) {
    this.#platform = platform
  }

  /** Runs a command. */
  slash(seed: SlashSeed): Fired {
    const place = findPlace(this.#platform, seed)
    const values = seed.options ?? {}
    const target = findCommand(this.#platform, place, seed.name, { values })
    const resolved = new Resolved(this.#platform, place)
    const options = nest(target.steps, runOptions(target.options, values, resolved))
    const data = {
      id: target.commandId,
      name: target.name,
      type: ApplicationCommandType.ChatInput,
      ...(options.length === 0 ? {} : { options }),
      ...(resolved.any ? { resolved: resolved.data } : {}),
      ...(target.guildId === undefined ? {} : { guild_id: target.guildId }),
    }
    return this.#fire(place, InteractionType.ApplicationCommand, { data }, { omit: seed.omit })
  }

  /** Types into an option. */
  autocomplete(seed: AutocompleteSeed): Fired {
    const place = findPlace(this.#platform, seed)
    const values = seed.options ?? {}
    const { focused } = seed
    const target = findCommand(this.#platform, place, seed.name, { values, focused })
    const typing = typingOptions(target.options, values, focused)
    const data = {
      id: target.commandId,
      name: target.name,
      type: ApplicationCommandType.ChatInput,
      options: nest(target.steps, typing.options),
      ...(target.guildId === undefined ? {} : { guild_id: target.guildId }),
    }
    return this.#fire(
      place,
      InteractionType.ApplicationCommandAutocomplete,
      { data },
      { focusedType: typing.focusedType },
    )
  }

  /** Presses a button of a message. */
  press(seed: PressSeed): Fired {
    const { source, component, place } = this.#component(seed)
    if (component.type !== ComponentType.Button)
      throw new Error(`Cannot press "${seed.customId}": it is no button`)
    return this.#use(place, source, component, {})
  }

  /** Chooses in a select menu of a message. */
  select(seed: SelectSeed): Fired {
    const { source, component, place } = this.#component(seed)
    const resolved = new Resolved(this.#platform, place)
    const values =
      component.type === ComponentType.StringSelect
        ? fillChoices(component, seed.values)
        : fillReferences(component, seed.values, resolved)
    const objects = component.type === ComponentType.StringSelect ? {} : { resolved: resolved.data }
    return this.#use(place, source, component, { values, ...objects })
  }

  /** Fills in and sends a form that the bot has opened. */
  submitModal(seed: SubmitSeed): Fired {
    const opener = this.#opener(seed)
    const modal = opener.response?.data ?? {}
    const user = seed.user === undefined ? opener.user : this.#platform.world.user(seed.user)
    if (user !== opener.user) throw new Error('Cannot submit the form: it was opened for someone else')
    const place: Place = { user, guild: opener.guild, channel: opener.channel }
    const data = fillForm(modal, seed.fields ?? {}, new Resolved(this.#platform, place))
    const message = opener.source === undefined ? {} : { message: opener.source.object }
    return this.#fire(
      place,
      InteractionType.ModalSubmit,
      { data, ...message },
      { source: opener.source, opener },
    )
  }

  #opener({ from, customId }: SubmitSeed): InteractionRecord {
    const isOpen = ({ response }: InteractionRecord) => response?.type === InteractionResponseType.Modal
    const fits = (record: InteractionRecord) =>
      isOpen(record) && (customId === undefined || record.response?.data.custom_id === customId)
    const record = from?.record ?? this.#platform.interactions.all.filter(fits).at(-1)
    if (record === undefined || !fits(record))
      throw new Error(`Cannot submit form "${customId ?? ''}": none is open`)
    return record
  }

  #component({ message, customId, user }: PressSeed): {
    source: StoredMessage
    component: Json
    place: Place
  } {
    const id = typeof message === 'string' ? message : message.id
    const source = this.#platform.messages.stored.get(id)
    if (source === undefined) throw new Error(`Cannot use "${customId}": message ${id} is gone`)
    const all = [...walkComponents(source.object.components ?? [], [])].map(({ one }) => one)
    const component = all.find((one) => one.custom_id === customId)
    if (component === undefined)
      throw new Error(`Cannot use "${customId}": the message has no such component`)
    if (component.disabled === true) throw new Error(`Cannot use "${customId}": it is disabled`)
    const actor = user ?? source.object.interaction_metadata?.user.id
    const place = placeOfMessage(this.#platform, source.object.channel_id, actor)
    if (source.onlyFor !== undefined && source.onlyFor !== place.user.id)
      throw new Error(`Cannot use "${customId}": only another person sees this message`)
    return { source, component, place }
  }

  #use(place: Place, source: StoredMessage, component: Json, extra: Json): Fired {
    const data = {
      id: component.id,
      custom_id: component.custom_id,
      component_type: component.type,
      ...extra,
    }
    return this.#fire(place, InteractionType.MessageComponent, { data, message: source.object }, { source })
  }

  #fire(place: Place, type: InteractionType, rest: Json, about: Partial<About> = {}): Fired {
    const whole: Json = structuredClone({
      ...commonFrame(this.#platform, place, type),
      ...rest,
    })
    const { id, token } = whole as { id: string; token: string }
    for (const field of about.omit ?? []) delete whole[field]
    const frame = whole as unknown as APIInteraction
    const record: InteractionRecord = {
      ...place,
      id,
      token,
      type,
      createdAtMs: this.#platform.clock.nowMs(),
      frame,
      source: about.source,
      opener: about.opener,
      focusedType: about.focusedType,
      response: undefined,
      original: undefined,
      ownIds: new Set(),
      followUpCount: 0,
    }
    this.#platform.interactions.add(record)
    const delivered = this.#platform.gateway.dispatch(
      GatewayDispatchEvents.InteractionCreate,
      frame,
      place.guild?.id,
    )
    return new Fired(this.#platform, record, delivered)
  }
}
