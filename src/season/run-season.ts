import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { type Bot, openBot } from '#src/bot.ts'
import { momentIn } from '#src/desk/clock.ts'
import type { Command } from '#src/desk/command.ts'
import { DEMO_CREW_KEY, demoSpeaker, seedDemo } from '#src/messengers/room/demo.ts'
import type { PracticeClock } from '#src/messengers/room/practice-clock.ts'
import { openSession, type RoomSession } from '#src/messengers/room/session.ts'
import { type CrewStore, crewStore } from '#src/store/crew-store.ts'
import { findCrew } from '#src/store/crews.ts'
import type { DatabaseAddress } from '#src/store/open.ts'
import { write } from '#src/store/transaction.ts'
import { loadDemo } from '../../data/demo/load.ts'
import type { Habits } from './habits.ts'
import { keepTreatment, measureAgain } from './keep.ts'
import { type PlannedMix, planSeason } from './plan.ts'
import { type Random, randomFrom } from './random.ts'
import { talkThrough } from './talk.ts'
import { countMix, newTally, type Tally } from './tally.ts'

/** Nobody of the crew waits for a flood gate, and a bug of the program ends the season. */
async function openRoom(
  commands: readonly Command[],
  address: DatabaseAddress,
  filesFolder: string,
  zone: string,
): Promise<Bot> {
  return openBot({
    address,
    purpose: 'practice',
    filesFolder,
    zone,
    commands,
    fetchFile: async () => {
      throw new Error('Nobody sends a file in this season')
    },
    reportError: (error) => {
      throw error
    },
    slowsFloods: false,
  })
}

/**
 * The demo crew through one season: every mix is asked for at the practice room's prompt, answered, poured and put on
 * record, in memory unless a store is named. The same commands, habits and seed give the same season.
 */
export async function runSeason(
  commands: readonly Command[],
  habits: Habits,
  seed: number,
  address: DatabaseAddress = { engine: 'sqlite', path: ':memory:' },
): Promise<Tally> {
  const demo = loadDemo()
  const { zone } = demo.crew
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-season-'))
  const bot = await openRoom(commands, address, folder, zone)
  try {
    await seedDemo(bot.database, demo, zone, momentIn(zone, habits.firstDay, '06:00'))
    return await work(bot, demo, { habits, random: randomFrom(seed) })
  } finally {
    await bot.close()
    rmSync(folder, { recursive: true, force: true })
  }
}

export interface Season {
  readonly habits: Habits
  readonly random: Random
}

async function work(bot: Bot, demo: ReturnType<typeof loadDemo>, season: Season): Promise<Tally> {
  const { habits, random } = season
  const store = <T>(job: (store: CrewStore) => Promise<T>): Promise<T> =>
    write(bot.database, async (db) => {
      const crew = await findCrew(db, DEMO_CREW_KEY)
      if (crew === undefined) throw new Error('The demo crew is gone')
      return job(crewStore(db, crew.id))
    })
  const clock = dayClock(demo.crew.zone)
  const sessions = new Map(
    demo.people.map(({ key }) => [
      key,
      openSession({ bot, clock, speaker: demoSpeaker(demo, key, 'en'), locale: 'en' }),
    ]),
  )
  const sessionOf = (key: string): RoomSession => {
    const session = sessions.get(key)
    if (session === undefined) throw new Error(`The demo crew has nobody called ${key}`)
    return session
  }
  const places = {
    areas: await store(async ({ sites }) => {
      const names = new Map((await sites.list()).map(({ id, name }) => [id, name]))
      return (await sites.allAreas()).map((area) => ({ area, site: names.get(area.siteId) ?? '' }))
    }),
    book: demo.book,
    sprayers: Object.fromEntries(
      demo.people
        .filter(({ role }) => role === 'crew')
        .map(({ key }) => [
          key,
          demo.sprayers
            .filter(({ calibrations }) => calibrations.some(({ person }) => person === key))
            .map(({ name }) => name),
        ]),
    ),
  }
  const tally = newTally()
  let today = ''
  for (const planned of planSeason(places, habits, random)) {
    if (planned.day !== today) {
      if (today !== '') await rinseAtNight(demo.sprayers, sessionOf('bex'), season)
      const isNewMonth = planned.day.slice(0, 7) !== today.slice(0, 7)
      today = planned.day
      clock.start(today)
      if (isNewMonth) await lookAtLabels(sessionOf('odalys'))
    }
    await mixOnce(planned, sessionOf(planned.who), { tally, season, store })
  }
  return tally
}

async function mixOnce(
  planned: PlannedMix,
  session: RoomSession,
  { tally, season, store }: { tally: Tally; season: Season; store: Parameters<typeof keepTreatment>[2] },
): Promise<void> {
  const { replies, poured } = await talkThrough(planned, session, season)
  countMix(tally, planned.day, replies)
  const last = replies.at(-1)
  if (last === undefined) return
  if (poured) await keepTreatment(planned, last, store)
  const isOld = last.lines.some(({ say }) => say === 'mixing.calibration-old')
  if (isOld && season.random.chance(season.habits.measuresAgain)) await measureAgain(planned, store)
}

async function rinseAtNight(
  sprayers: readonly { readonly name: string }[],
  session: RoomSession,
  { habits, random }: Season,
): Promise<void> {
  for (const { name } of sprayers) {
    const rinsed = random.chance(habits.rinsesAtNight) ? 'yes' : 'no'
    await session.type(`/sprayer cleaned sprayer:"${name}" rinsed:${rinsed}`)
  }
}

/** On the first working day of a month the licensed lead holds the whole book against its labels. */
async function lookAtLabels(session: RoomSession): Promise<void> {
  await session.type('/label confirm all:yes')
  await session.type('> 1')
}

/** Stands at seven in the morning of a day and moves a minute with each request. */
function dayClock(zone: string): PracticeClock & { start(day: string): void } {
  let nowMs = 0
  return {
    nowMs: () => {
      nowMs += 60_000
      return nowMs
    },
    forward: (ms) => {
      nowMs += ms
    },
    start: (day) => {
      nowMs = momentIn(zone, day, '07:00')
    },
  }
}
