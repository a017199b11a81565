import type { Bot } from '#src/bot.ts'
import { demoSpeaker } from '#src/messengers/room/demo.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew } from '#src/store/crews.ts'
import { write } from '#src/store/transaction.ts'
import { loadDemo } from '../../data/demo/load.ts'

/** Works on the rows of the demo crew in an open room. */
export function inDemo<T>(bot: Bot, work: (store: CrewStore) => Promise<T>): Promise<T> {
  return write(bot.database, async (db) => {
    const crew = await findCrew(db, demoSpeaker(loadDemo(), 'lead', 'en').crewKey)
    if (crew === undefined) throw new Error('The demo crew is gone')
    return work(crewStore(db, crew.id))
  })
}
