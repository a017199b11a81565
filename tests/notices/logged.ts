import { dayIn } from '#src/desk/clock.ts'
import type { Tools } from '#src/desk/command.ts'
import { followRecord } from '#src/notices/follow-record.ts'
import type { ApplicationRecord } from '#src/record/record.ts'
import type { Moment } from '#src/record/values.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew, raiseBookRevision, updateCrew } from '#src/store/crews.ts'
import { type Transaction, write } from '#src/store/transaction.ts'
import { keepRecord } from '#tests/helpers/keep-record.ts'
import type { TestRoom } from '#tests/helpers/room.ts'
import { product } from '#tests/record/build.ts'

/** The room's clock begins on Monday, 4 May 2026, at ten in New York. */
export const NOW_MS = Date.parse('2026-05-04T14:00:00Z')
export const moment = (local: string): Moment => ({
  atMs: Date.parse(`${local.replace(' ', 'T')}:00-04:00`),
  local,
  zone: 'America/New_York',
})

/** Works in the room's demo crew as one of its people. */
export async function inCrew<T>(
  room: Pick<TestRoom, 'bot'>,
  work: (tools: Tools, db: Transaction) => Promise<T>,
  nowMs = NOW_MS,
): Promise<T> {
  return write(room.bot.database, async (db) => {
    const crew = await findCrew(db, 'room:demo')
    if (crew === undefined) throw new Error('The demo crew is gone')
    return work(await toolsOf(db, crew.key, nowMs), db)
  })
}

/** The tools of a command that the first of a crew's people has started. */
export async function toolsOf(db: Transaction, crewKey: string, nowMs: number): Promise<Tools> {
  const crew = await findCrew(db, crewKey)
  if (crew === undefined) throw new Error('There is no such crew')
  const store = crewStore(db, crew.id)
  const [person] = await store.people.list()
  if (person === undefined) throw new Error('Nobody is in the crew')
  return {
    store,
    crew,
    person,
    isLead: person.leads,
    nowMs,
    today: dayIn(crew.zone, nowMs),
    turn: { id: 0, number: 0 },
    channelKey: null,
    locale: 'en',
    heard: null,
    texts: new Map(),
    canWrite: true,
    updateCrew: (change) => updateCrew(db, crew.id, change),
    namesChanged: () => raiseBookRevision(db, crew.id),
  }
}

/** A job on the lawn of Plimmet Street House, over at half past nine: kept, and followed. */
export async function logged(
  room: Pick<TestRoom, 'bot'>,
  parts: Partial<ApplicationRecord> = {},
): Promise<number> {
  return inCrew(room, async (tools) => {
    const site = (await tools.store.sites.list()).find(({ name }) => name === 'Plimmet Street House')
    if (site === undefined) throw new Error('The demo site is gone')
    const number = await keepRecord(tools.store, {
      personId: tools.person.id,
      record: {
        siteId: site.id,
        date: '2026-05-04',
        startedAt: moment('2026-05-04 09:00'),
        endedAt: moment('2026-05-04 09:30'),
        writtenAt: moment('2026-05-04 10:00'),
        rules: { table: 'MD', state: 'MD' },
        keepOffUntil: { untilDry: true },
        products: [product({ name: 'Bellstrake 3 L' })],
        ...parts,
      },
    })
    await followRecord(number, tools)
    return number
  })
}
