import type { Tools } from '#src/desk/command.ts'
import { recorded } from '#src/record/not-recorded.ts'
import type { RecordDraft } from '#src/record/record.ts'
import { isSound, type RecordRead, readRecords } from '#src/records/read-record.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { KeptMix } from '#src/store/mixes.ts'
import type { Person } from '#src/store/people.ts'
import type { RecordFilter } from '#src/store/records.ts'
import type { Area, Site } from '#src/store/sites.ts'
import { fromMix, leftIn } from './from-mix.ts'
import { fromCrew, fromPerson, supervisorAmong } from './from-people.ts'
import { carriedOver, fromArea, fromSite } from './from-place.ts'
import { weatherToday } from './weather-today.ts'

/** What is known before anybody is asked: the mix, the crew, who sprays, and the day. */
export async function newDraft(mix: KeptMix | null, tools: Tools): Promise<RecordDraft> {
  const { store, crew, person, today } = tools
  const mixed = mix === null ? {} : await fromMix(mix, tools)
  const whose = mix?.body.forId == null ? person : ((await store.people.get(mix.body.forId)) ?? person)
  return {
    ...mixed,
    ...(mix === null ? {} : { leftover: await leftIn(mix, store) }),
    date: today,
    ...(await lastSaidOf(whose, tools)),
    ...fromPerson(whose),
    ...fromCrew(crew),
    ...(await weatherToday(tools)),
  }
}

/** The full name that this person's last record gave, so that it is typed once. */
async function lastSaidOf({ id }: Person, { store }: Tools): Promise<RecordDraft> {
  const last = await newest({ personId: id }, store)
  const said = last === undefined ? undefined : recorded(last.original.applicator)
  return said === undefined ? {} : { applicator: { name: said.name, id } }
}

async function newest(filter: RecordFilter, store: CrewStore): Promise<RecordRead | undefined> {
  const found = await readRecords(store, await store.records.listNewest(filter, 1))
  return found.find(isSound)
}

/** Adds a site, and what its last record said of it. */
export async function withSite(draft: RecordDraft, site: Site, { store }: Tools): Promise<RecordDraft> {
  const last = await newest({ siteId: site.id }, store)
  return {
    ...draft,
    ...(last === undefined ? {} : carriedOver(last.current.record)),
    ...fromSite(site),
  }
}

export function withArea(draft: RecordDraft, area: Area, { today }: Tools): RecordDraft {
  return { ...draft, ...fromArea(area, today) }
}

/** The whole area is as large as the book says; of a part somebody has to say how much it is. */
export function withCoverage(
  draft: RecordDraft,
  coverage: 'whole area' | 'spots' | 'strip',
  area: Area | null,
): RecordDraft {
  if (coverage !== 'whole area' || area === null) return { ...draft, coverage }
  return {
    ...draft,
    coverage,
    treatedArea: { value: area.squareFeet, unit: 'ft2' },
    ...(area.details.measured === undefined ? {} : { areaBasis: 'measured' as const }),
  }
}

/** Somebody without a license works under somebody who has one: offered, and shown before it is kept. */
export async function withSupervisor(draft: RecordDraft, { store, today }: Tools): Promise<RecordDraft> {
  const { license, supervisor } = draft
  if (supervisor !== undefined || license === undefined || !('none' in license)) return draft
  const found = supervisorAmong(await store.people.leads(), today)
  const held = found?.settings.license
  return found === undefined || held == null
    ? draft
    : {
        ...draft,
        supervisor: {
          name: found.name,
          id: found.id,
          license: { number: held.number, expiresOn: held.expiresOn },
        },
      }
}
