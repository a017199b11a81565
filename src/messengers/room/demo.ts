import type { Speaker } from '#src/conversation/ask.ts'
import { addDays, dayIn } from '#src/desk/clock.ts'
import { parseOutput } from '#src/quantity/parse-rate.ts'
import { sayOutput } from '#src/quantity/said.ts'
import { type CrewStore, crewStore } from '#src/store/crew-store.ts'
import { CrewSettings, findCrew, findOrCreateCrew, raiseBookRevision } from '#src/store/crews.ts'
import type { Database } from '#src/store/open.ts'
import { AreaDetails, SiteDetails } from '#src/store/sites.ts'
import { SprayerDetails } from '#src/store/sprayers.ts'
import { type Transaction, write } from '#src/store/transaction.ts'
import { confirmedDaysAgo, type Demo } from '../../../data/demo/load.ts'
import type { DemoPerson } from '../../../data/demo/schema.ts'

/** Key of the demo crew: no messenger server is called so. */
export const DEMO_CREW_KEY = 'room:demo'

/** Who speaks in the practice room: `lead`, `crew`, or one of the demo people by key or name. */
export function demoSpeaker(demo: Demo, as: string, locale: string): Speaker {
  const wanted = as.toLowerCase()
  const person =
    demo.people.find(({ key, name }) => key === wanted || name.toLowerCase() === wanted) ??
    demo.people.find(({ role, license }) => role === wanted && (role === 'crew' || license !== undefined)) ??
    demo.people[0]
  if (person === undefined) throw new Error('The demo crew has nobody in it')
  return {
    crewKey: DEMO_CREW_KEY,
    crewName: demo.crew.name,
    personKey: person.key,
    personName: person.name,
    runsServer: false,
    roles: [],
    locale,
    crewLocale: demo.crew.language,
    channelKey: 'room',
  }
}

/** Puts the invented crew into an empty practice database. Days are counted back from now, so it is always in season. */
export async function seedDemo(database: Database, demo: Demo, zone: string, atMs: number): Promise<void> {
  await write(database, async (db) => {
    if ((await findCrew(db, DEMO_CREW_KEY)) !== undefined) return
    const crew = await findOrCreateCrew(db, {
      key: DEMO_CREW_KEY,
      name: demo.crew.name,
      language: demo.crew.language,
      zone,
      state: demo.crew.state,
      settings: CrewSettings.parse({ tools: demo.crew.tools, units: demo.crew.units }),
      demo: true,
      atMs,
    })
    await fill(db, crewStore(db, crew.id), demo, { today: dayIn(zone, atMs), atMs })
    await raiseBookRevision(db, crew.id)
  })
}

interface When {
  readonly today: string
  readonly atMs: number
}
const ago = ({ today }: When, days: number) => addDays(today, -days)

async function fill(_db: Transaction, store: CrewStore, demo: Demo, when: When): Promise<void> {
  const people = await seedPeople(store, demo.people, when)
  const personId = (key: string) => {
    const id = people.get(key)
    if (id === undefined) throw new Error(`The demo crew has nobody called ${key}`)
    return id
  }
  const areas = await seedSites(store, demo, when)
  await seedSprayers(store, demo, when, personId)
  const entries = await seedBook(store, demo, when, personId)
  for (const one of demo.treatments) {
    const entry = entries.get(one.product)
    const areaId = areas.get(`${one.site}/${one.area}`)
    if (entry === undefined || areaId === undefined)
      throw new Error(`A demo treatment is of nothing known: ${one.product}`)
    await store.treatments.add(
      {
        areaId,
        entryId: entry.entryId,
        revisionId: entry.revisionId,
        personId: personId(one.person),
        treatedOn: ago(when, one.daysAgo),
        details: {
          product: one.product,
          rate: one.rate,
          lineId: one.line,
          treatedFt2: one.treatedFt2,
          amount: null,
          note: '',
        },
      },
      when.atMs,
    )
  }
}

async function seedPeople(
  store: CrewStore,
  people: readonly DemoPerson[],
  when: When,
): Promise<Map<string, number>> {
  const ids = new Map<string, number>()
  for (const one of people) {
    const person = await store.people.findOrCreate({
      key: one.key,
      name: one.name,
      role: one.role,
      language: one.language,
      atMs: when.atMs,
      settings: {
        license:
          one.license === undefined
            ? null
            : { number: one.license.number, expiresOn: addDays(when.today, one.license.expiresInDays) },
        deputyOf: one.deputyOf === undefined ? null : (ids.get(one.deputyOf) ?? null),
      },
    })
    ids.set(one.key, person.id)
  }
  return ids
}

async function seedSites(store: CrewStore, demo: Demo, when: When): Promise<Map<string, number>> {
  const ids = new Map<string, number>()
  for (const site of demo.sites) {
    const { name, address, areas, ...mind } = site
    const siteId = await store.sites.create({ name, address, details: SiteDetails.parse(mind) }, when.atMs)
    for (const area of areas) {
      const details = AreaDetails.parse({
        turfs: area.turfs,
        use: area.use,
        overseed:
          area.overseed === undefined
            ? null
            : {
                turf: area.overseed.turf,
                until: addDays(ago(when, area.overseed.seededDaysAgo), area.overseed.livesDays),
              },
        seededOn: area.seededDaysAgo === undefined ? null : ago(when, area.seededDaysAgo),
        soddedOn: area.soddedDaysAgo === undefined ? null : ago(when, area.soddedDaysAgo),
      })
      const squareFeet = area.squareFeet
      ids.set(
        `${name}/${area.name}`,
        await store.sites.createArea({ siteId, name: area.name, squareFeet, details }, when.atMs),
      )
    }
  }
  return ids
}

async function seedSprayers(
  store: CrewStore,
  demo: Demo,
  when: When,
  personId: (key: string) => number,
): Promise<void> {
  for (const { name, calibrations, ...rest } of demo.sprayers) {
    const details = SprayerDetails.parse(rest)
    const sprayerId = await store.sprayers.create({ name, details }, when.atMs)
    for (const one of calibrations) {
      const output = parseOutput(one.output)
      if (!output.ok) throw new Error(`Cannot read the demo output ${one.output}`)
      await store.sprayers.keepCalibration(
        {
          sprayerId,
          personId: personId(one.person),
          setup: `${one.tip ?? details.tip}|${one.pressure ?? details.pressure}`,
          output: sayOutput(output.value),
          measuredOn: ago(when, one.daysAgo),
        },
        when.atMs,
      )
    }
    await store.sprayers.addEvent({
      sprayerId,
      personId: personId('bex'),
      turnId: null,
      kind: 'cleaned',
      atMs: when.atMs - 86_400_000,
      details: { products: [], volume: null, rate: null, output: null, note: '' },
    })
  }
}

async function seedBook(
  store: CrewStore,
  demo: Demo,
  when: When,
  personId: (key: string) => number,
): Promise<Map<string, { entryId: number; revisionId: number }>> {
  const ids = new Map<string, { entryId: number; revisionId: number }>()
  for (const body of demo.book) {
    const entryId = await store.labels.createEntry(body.name, when.atMs)
    const revision = await store.labels.addRevision(entryId, body, {
      personId: personId('odalys'),
      atMs: when.atMs,
    })
    const on = ago(when, confirmedDaysAgo(demo.confirmations, body.name))
    await store.labels.makeLive(revision, { by: personId('marl'), on })
    ids.set(body.name, { entryId, revisionId: revision.id })
  }
  return ids
}
