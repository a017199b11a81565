import type { Bot } from '#src/bot.ts'
import type { Speaker } from '#src/conversation/ask.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { type Crew, findCrew } from '#src/store/crews.ts'
import type { Person } from '#src/store/people.ts'
import { readOnly } from '#src/store/transaction.ts'
import type { Demo } from '../../../../data/demo/load.ts'
import { DEMO_CREW_KEY, demoSpeaker } from '../demo.ts'

/** One window: who sits in front of it, and in which language. */
export interface Viewer {
  readonly person: Person
  readonly crew: Crew
  readonly speaker: Speaker
  readonly locale: string
}

/** The person of the demo crew with this key; null for anybody else. */
export async function viewerOf(bot: Bot, demo: Demo, key: string): Promise<Viewer | null> {
  if (!demo.people.some((one) => one.key === key)) return null
  return readOnly(bot.database, async (db) => {
    const crew = await findCrew(db, DEMO_CREW_KEY)
    if (crew === undefined) return null
    const person = await crewStore(db, crew.id).people.find(key)
    if (person === undefined) return null
    const locale = bot.words.closest(person.language ?? crew.language)
    return { person, crew, locale, speaker: demoSpeaker(demo, key, locale) }
  })
}

/** Everybody who can be chosen, as they are kept now. */
export async function listPeople(bot: Bot, demo: Demo): Promise<readonly Person[]> {
  const keys = new Set(demo.people.map((one) => one.key))
  return readOnly(bot.database, async (db) => {
    const crew = await findCrew(db, DEMO_CREW_KEY)
    const people = crew === undefined ? [] : await crewStore(db, crew.id).people.list()
    return people.filter((one) => keys.has(one.key))
  })
}
