import { randomUUID } from 'node:crypto'
import type { LabelEntry } from '#src/label/entry.ts'
import { type CrewStore, crewStore } from '#src/store/crew-store.ts'
import { type Crew, findOrCreateCrew, type NewCrew } from '#src/store/crews.ts'
import type { Person } from '#src/store/people.ts'
import { type Area, AreaDetails, type Site, SiteDetails } from '#src/store/sites.ts'
import { type Sprayer, SprayerDetails } from '#src/store/sprayers.ts'
import { type Transaction, write } from '#src/store/transaction.ts'
import { loadDemo } from '../../data/demo/load.ts'
import { NOON_MS } from './asks.ts'
import type { Place } from './engines.ts'

/** Rows with everything that they need, made through the repositories; every part can be given. */

export function aCrew(db: Transaction, parts: Partial<NewCrew> = {}): Promise<Crew> {
  return findOrCreateCrew(db, {
    key: 'test:1',
    name: 'Test crew',
    language: 'en',
    zone: 'America/Chicago',
    atMs: NOON_MS,
    ...parts,
  })
}

export async function aCrewStore(
  db: Transaction,
  parts: Partial<NewCrew> = {},
): Promise<{ readonly crew: Crew; readonly store: CrewStore }> {
  const crew = await aCrew(db, parts)
  return { crew, store: crewStore(db, crew.id) }
}

export function aPerson(
  store: CrewStore,
  parts: Partial<Parameters<CrewStore['people']['findOrCreate']>[0]> = {},
): Promise<Person> {
  return store.people.findOrCreate({ key: 'ada', name: 'Ada Test', atMs: NOON_MS, ...parts })
}

export async function aSite(store: CrewStore, parts: Partial<Omit<Site, 'id'>> = {}): Promise<Site> {
  const site = {
    name: 'Invented Row 5',
    address: '5 Invented Row, Noplace NC 27000',
    details: SiteDetails.parse({}),
    ...parts,
  }
  return { id: await store.sites.create(site, NOON_MS), ...site }
}

export async function anArea(
  store: CrewStore,
  siteId: number,
  parts: Partial<Omit<Area, 'id' | 'siteId'>> = {},
): Promise<Area> {
  const area = {
    siteId,
    name: 'front',
    squareFeet: '6000',
    details: AreaDetails.parse({ turfs: ['tall-fescue'] }),
    ...parts,
  }
  return { id: await store.sites.createArea(area, NOON_MS), ...area }
}

export async function aSprayer(store: CrewStore, parts: Partial<Omit<Sprayer, 'id'>> = {}): Promise<Sprayer> {
  const sprayer = {
    name: 'Hand can 1',
    details: SprayerDetails.parse({ tank: { value: '2', unit: 'gal' }, tip: 'red', pressure: '30 psi' }),
    ...parts,
  }
  return { id: await store.sprayers.create(sprayer, NOON_MS), ...sprayer }
}

/** A product of the invented label book, with its first revision in force. */
export async function aProduct(
  store: CrewStore,
  enteredBy: number,
  parts: Partial<LabelEntry> = {},
): Promise<{ readonly entryId: number; readonly revisionId: number; readonly body: LabelEntry }> {
  const body = demoEntry(parts)
  const entryId = await store.labels.createEntry(body.name, NOON_MS)
  const revision = await store.labels.addRevision(entryId, body, { personId: enteredBy, atMs: NOON_MS })
  await store.labels.makeLive(revision, { by: enteredBy, on: '2026-05-04' })
  return { entryId, revisionId: revision.id, body }
}

export function demoEntry(parts: Partial<LabelEntry> = {}): LabelEntry {
  const [first] = loadDemo().book
  if (first === undefined) throw new Error('The demo label book is empty')
  return { ...first, ...parts }
}

export interface InStore {
  readonly db: Transaction
  readonly crew: Crew
  readonly store: CrewStore
}

/** Works on the rows of a crew of its own, in one transaction. */
export async function inStore<T>(place: Place, work: (inside: InStore) => Promise<T>): Promise<T> {
  const key = `test:${randomUUID()}`
  return write(await place.shared(), async (db) => work({ db, ...(await aCrewStore(db, { key })) }))
}
