import { ComponentType } from 'discord.js'
import type { Speaker } from '#src/conversation/ask.ts'
import { BoundedMap } from '#src/memory/bounded-map.ts'
import type { Row } from './choices.ts'
import { writeHead } from './custom-id.ts'
import { cutText } from './cut.ts'
import { oneLine } from './escape.ts'
import { COMPONENT } from './limits.ts'
import type { IsMember } from './members.ts'
import type { Incoming } from './read.ts'

/** A crew that a person belongs to. */
export interface CrewOfPerson {
  readonly key: string
  readonly name: string
}

/** Crews that have this person and have not removed them. */
export type CrewsOf = (personKey: string) => Promise<readonly CrewOfPerson[]>

/** Whose request it is, or why that cannot be said yet. */
export type Whose =
  | { readonly kind: 'known'; readonly by: Speaker; readonly guild: string | null }
  | { readonly kind: 'none' }
  | { readonly kind: 'several'; readonly crews: readonly CrewOfPerson[] }

const PREFIX = 'discord:'
export const crewKeyOf = (guildId: string): string => `${PREFIX}${guildId}`
export const guildOfKey = (crewKey: string): string => crewKey.replace(PREFIX, '')

export interface CrewFinder {
  find(incoming: Incoming): Promise<Whose>
  /** Keeps a direct request until its person has said which crew it is about; a restart forgets it. */
  hold(incoming: Incoming): void
  /** Remembers the crew that a person chose for direct messages, and gives back the request that waited for it. */
  choose(personId: string, crewKey: string): Incoming | null
}

/** Finds the crew of a request: the server it came from, or in a direct message the person's own. */
export function crewFinder(parts: {
  readonly crewsOf: CrewsOf
  /** Null while the platform has not told it. */
  readonly nameOf: (guildId: string) => Promise<string | null>
  readonly isMember: IsMember
}): CrewFinder {
  const chosen = new BoundedMap<string, string>(10_000)
  const held = new BoundedMap<string, Incoming>(1000)
  const speaker = (
    incoming: Incoming,
    crew: { readonly key: string; readonly name: string | null },
    locale: string,
  ): Speaker => ({
    crewKey: crew.key,
    crewName: crew.name,
    personKey: incoming.person.id,
    personName: incoming.person.name,
    runsServer: incoming.person.runsServer,
    roles: [...incoming.person.roles],
    locale: incoming.person.locale,
    crewLocale: locale,
    channelKey: incoming.guild === null ? null : incoming.channelId,
  })
  /** Whoever was removed from a server knows nothing of its crew any more; in doubt nobody is let in. */
  const stillIn = async (crews: readonly CrewOfPerson[], personId: string) => {
    const isIn = await Promise.all(crews.map(({ key }) => parts.isMember(guildOfKey(key), personId)))
    return crews.filter((_, at) => isIn[at] === true)
  }
  return {
    async find(incoming) {
      const { guild, person } = incoming
      if (guild !== null) {
        const crew = { key: crewKeyOf(guild.id), name: await parts.nameOf(guild.id) }
        return { kind: 'known', by: speaker(incoming, crew, guild.locale), guild: null }
      }
      const crews = await stillIn(await parts.crewsOf(person.id), person.id)
      const crew = pickCrew(crews, incoming.guildOfId, chosen.get(person.id))
      if (crew === undefined) return crews.length === 0 ? { kind: 'none' } : { kind: 'several', crews }
      if (crew === null) return { kind: 'none' }
      return { kind: 'known', by: speaker(incoming, crew, person.locale), guild: guildOfKey(crew.key) }
    },
    hold: (incoming) => held.set(incoming.person.id, incoming),
    choose(personId, crewKey) {
      chosen.set(personId, crewKey)
      const incoming = held.get(personId) ?? null
      held.delete(personId)
      return incoming
    },
  }
}

/** A button's own crew, or none if the person is no longer in it; else the chosen one, else the only one. */
function pickCrew(
  crews: readonly CrewOfPerson[],
  guildId: string | null,
  chosen: string | undefined,
): CrewOfPerson | null | undefined {
  if (guildId !== null) return crews.find(({ key }) => key === crewKeyOf(guildId)) ?? null
  return crews.find(({ key }) => key === chosen) ?? (crews.length === 1 ? crews[0] : undefined)
}

/** The menu that asks which crew a direct message is about. */
export function crewMenu(crews: readonly CrewOfPerson[], placeholder: string): Row {
  return {
    type: ComponentType.ActionRow,
    components: [
      {
        type: ComponentType.StringSelect,
        custom_id: writeHead({ kind: 'crew' }),
        placeholder: cutText(oneLine(placeholder), COMPONENT.placeholder) || '…',
        options: crews.slice(0, COMPONENT.selectOptions).map(({ key, name }) => ({
          value: key.slice(0, COMPONENT.optionText),
          label: cutText(oneLine(name), COMPONENT.optionText) || key.slice(0, COMPONENT.optionText),
        })),
      },
    ],
  }
}
