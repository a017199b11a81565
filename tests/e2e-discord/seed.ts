import { dayIn } from '#src/desk/clock.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { crewKeyOf } from '#src/messengers/discord/crews.ts'
import { type CrewStore, crewStore } from '#src/store/crew-store.ts'
import { CrewSettings, findOrCreateCrew, raiseBookRevision } from '#src/store/crews.ts'
import type { Database } from '#src/store/open.ts'
import { AreaDetails, SiteDetails } from '#src/store/sites.ts'
import { SprayerDetails, setupOf } from '#src/store/sprayers.ts'
import { write } from '#src/store/transaction.ts'
import type { DiscordStandIn } from '#tests/discord-loopback/index.ts'
import { loadDemo } from '../../data/demo/load.ts'

const demo = loadDemo()
const ZONE = 'America/Chicago'

/** An entry of the invented label book. */
export function entryOf(name: string): LabelEntry {
  const found = demo.book.find((entry) => entry.name === name)
  if (found === undefined) throw new Error(`No demo product is called "${name}"`)
  return found
}

export const HAND_CAN = 'Hand can 1'
export const SITE = 'Invented Row 5'

/**
 * What a crew has built up before the day begins: its tools, a sprayer that one person has measured, a site of two
 * areas, and two products in force. All of it is invented.
 */
export async function seedCrew(database: Database, platform: DiscordStandIn, guildName?: string) {
  const atMs = platform.clock.nowMs()
  const guild = platform.world.guild(guildName)
  await write(database, async (db) => {
    const crew = await findOrCreateCrew(db, {
      key: crewKeyOf(guild.id),
      name: guild.name,
      language: 'en',
      zone: ZONE,
      atMs,
      settings: CrewSettings.parse({ tools: demo.crew.tools }),
    })
    const store = crewStore(db, crew.id)
    const person = await store.people.findOrCreate({
      key: platform.world.user('demo.crew').id,
      name: 'demo.crew',
      atMs,
    })
    await seedSprayer(store, person.id, atMs)
    await seedSite(store, atMs)
    for (const name of ['Dunvarrow 2 SC', 'Tarnbrask 75 WDG'])
      await seedProduct(store, entryOf(name), person.id, atMs)
    await raiseBookRevision(db, crew.id)
  })
}

async function seedSprayer(store: CrewStore, personId: number, atMs: number) {
  const details = SprayerDetails.parse({
    tank: { value: '2', unit: 'gal' },
    marks: { value: '0.25', unit: 'gal' },
    tip: 'red',
    pressure: '30 psi',
  })
  const sprayerId = await store.sprayers.create({ name: HAND_CAN, details }, atMs)
  await store.sprayers.keepCalibration(
    {
      sprayerId,
      personId,
      setup: setupOf(details),
      output: { value: '1', unit: 'gal/1000 ft2' },
      measuredOn: dayIn(ZONE, atMs),
    },
    atMs,
  )
  await store.sprayers.addEvent({
    sprayerId,
    personId,
    turnId: null,
    kind: 'cleaned',
    atMs,
    details: { products: [], volume: null, rate: null, output: null, note: '' },
  })
}

async function seedSite(store: CrewStore, atMs: number) {
  const siteId = await store.sites.create(
    { name: SITE, address: '5 Invented Row, Noplace NC 27000', details: SiteDetails.parse({}) },
    atMs,
  )
  for (const [name, turf] of [
    ['front', 'tall-fescue'],
    ['field', 'bermuda'],
  ] as const)
    await store.sites.createArea(
      { siteId, name, squareFeet: '6000', details: AreaDetails.parse({ turfs: [turf] }) },
      atMs,
    )
}

async function seedProduct(store: CrewStore, body: LabelEntry, personId: number, atMs: number) {
  const entryId = await store.labels.createEntry(body.name, atMs)
  const revision = await store.labels.addRevision(entryId, body, { personId, atMs })
  await store.labels.makeLive(revision, { by: personId, on: dayIn(ZONE, atMs) })
}
