import { dayIn } from '#src/desk/clock.ts'
import { LabelEntry } from '#src/label/entry.ts'
import { crewKeyOf } from '#src/messengers/discord/crews.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew, getCrew, raiseBookRevision } from '#src/store/crews.ts'
import type { Database } from '#src/store/open.ts'
import { write } from '#src/store/transaction.ts'
import { type DiscordStandIn, startDiscord } from '#tests/discord-loopback/index.ts'
import { entryOf, seedCrew } from '#tests/e2e-discord/seed.ts'

const ZONE = 'America/Chicago'

/** A stand-in whose one guild has so many people: nobody asks as often as the flood gate would notice. */
export function startWorld(people: readonly string[]): Promise<DiscordStandIn> {
  return startDiscord({
    identifyIntervalMs: 0,
    users: [{ name: 'demo.lead' }, { name: 'demo.crew' }, ...people.map((name) => ({ name }))],
    guilds: [
      {
        name: 'Demo Grounds',
        owner: 'demo.lead',
        channels: [{ name: 'field' }],
        members: ['demo.lead', 'demo.crew', ...people].map((user) => ({ user })),
      },
    ],
  })
}

/** The crew of the tests, with a label book as full as it gets: all of it invented. */
export async function seedWorld(database: Database, platform: DiscordStandIn, products: number) {
  await seedCrew(database, platform)
  const atMs = platform.clock.nowMs()
  await write(database, async (db) => {
    const found = await findCrew(db, crewKeyOf(platform.world.guild(undefined).id))
    const crew = found && (await getCrew(db, found.id))
    if (crew === undefined) throw new Error('Cannot find the crew just made')
    const store = crewStore(db, crew.id)
    const [person] = await store.people.list()
    const by = person?.id ?? 0
    const body = entryOf('Dunvarrow 2 SC')
    for (let at = 0; at < products; at += 1) {
      const entry = LabelEntry.parse({ ...body, name: productName(at) })
      const id = await store.labels.createEntry(entry.name, atMs)
      const revision = await store.labels.addRevision(id, entry, { personId: by, atMs })
      await store.labels.makeLive(revision, { by, on: dayIn(ZONE, atMs) })
    }
    await raiseBookRevision(db, crew.id)
  })
}

const BEGINNINGS = ['Bram', 'Cald', 'Drov', 'Fenn', 'Garl', 'Hesk', 'Jorv', 'Kelm', 'Lind', 'Morv']
const ENDINGS = ['arrow', 'brask', 'combe', 'dell', 'firth', 'gale', 'holt', 'mere', 'stow', 'wick']
const KINDS = ['SC', 'WDG', 'EC', 'SL', 'DF']

/** An invented name that no other place has. */
function productName(at: number): string {
  const beginning = BEGINNINGS[at % 10] ?? ''
  const ending = ENDINGS[Math.floor(at / 10) % 10] ?? ''
  return `${beginning}${ending} ${Math.floor(at / 100) + 1} ${KINDS[at % 5] ?? ''}`
}
