import { crewKeyOf } from '#src/messengers/discord/crews.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findOrCreateCrew } from '#src/store/crews.ts'
import { AreaDetails, SiteDetails } from '#src/store/sites.ts'
import { write } from '#src/store/transaction.ts'
import { type OnDiscord, startCrew } from '#tests/e2e-discord/crew.ts'
import type { Place } from '#tests/helpers/engines.ts'

export const SITE = 'Invented Row 5'

/** The real bot on the stand-in, with a crew whose only lawn is centipedegrass. */
export async function startStage(place: Place): Promise<OnDiscord> {
  const stage = await startCrew(place, { bare: true })
  await seed(stage)
  return stage
}

async function seed({ bot, platform }: OnDiscord): Promise<void> {
  const atMs = platform.clock.nowMs()
  const guild = platform.world.guild(undefined)
  await write(bot.database, async (db) => {
    const crew = await findOrCreateCrew(db, {
      key: crewKeyOf(guild.id),
      name: guild.name,
      language: 'en',
      zone: 'America/Chicago',
      atMs,
    })
    const { sites } = crewStore(db, crew.id)
    const siteId = await sites.create(
      { name: SITE, address: '5 Invented Row, Noplace NC 27000', details: SiteDetails.parse({}) },
      atMs,
    )
    const details = AreaDetails.parse({ turfs: ['centipede'] })
    await sites.createArea({ siteId, name: 'front', squareFeet: '6000', details }, atMs)
  })
}
