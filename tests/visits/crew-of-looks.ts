import type { Answered } from '#src/desk/desk.ts'
import { planLooks } from '#src/recheck/schedule.ts'
import { sendAll } from '#src/reminders/send-all.ts'
import { type CrewStore, crewStore } from '#src/store/crew-store.ts'
import { CrewSettings, type NewCrew } from '#src/store/crews.ts'
import type { Database } from '#src/store/open.ts'
import { write } from '#src/store/transaction.ts'
import { keepRecord } from '#tests/helpers/keep-record.ts'
import { aCrew, anArea, aPerson, aSite } from '#tests/helpers/rows.ts'
import { choose } from '#tests/helpers/test-desk.ts'
import { readSchedule } from '../../data/recheck/load.ts'

export const everyDay = { weekdays: [1, 2, 3, 4, 5, 6, 7], daysOff: [] }
export const mondayToFriday = { weekdays: [1, 2, 3, 4, 5], daysOff: [] }

export interface Looking {
  readonly database: Database
  readonly ids: { readonly owner: number; readonly lead: number; readonly visits: readonly number[] }
  store<T>(work: (store: CrewStore) => Promise<T>): Promise<T>
}

/** A crew with a lead, and somebody who owns looks after applications of nutsedge: the first is due 14 days after each. */
export async function aCrewOfLooks(
  database: Database,
  treatedOn: readonly string[],
  parts: Partial<NewCrew> & { readonly workdays?: CrewSettings['workdays'] } = {},
): Promise<Looking> {
  const { workdays = mondayToFriday, ...rest } = parts
  const settings = CrewSettings.parse({ workdays })
  const { crewId, ids } = await write(database, async (db) => {
    const crew = await aCrew(db, { settings, ...rest })
    const store = crewStore(db, crew.id)
    const lead = await aPerson(store, { key: 'lead', name: 'Lena Lead', role: 'lead' })
    const owner = await aPerson(store, { key: 'owner', name: 'Otto Owner' })
    const site = await aSite(store)
    const area = await anArea(store, site.id)
    const visits: number[] = []
    for (const [at, on] of treatedOn.entries()) {
      const recordNumber = await keepRecord(store, {
        personId: owner.id,
        record: { siteId: site.id, areaId: area.id, date: on },
      })
      const plot = { where: '', pin: null, size: '', coverPercent: null }
      await store.plots.create(
        {
          recordNumber,
          areaId: area.id,
          kind: 'treated',
          flag: String(at + 1),
          body: plot,
          personId: owner.id,
        },
        0,
      )
      const plan = planLooks(
        { treatedOn: on, group: 'sedge', lifecycles: ['perennial'], secondMeant: true },
        readSchedule(),
        { workdays },
      )
      visits.push(
        await store.visits.create(
          {
            recordNumber,
            walkId: null,
            siteId: site.id,
            areaId: area.id,
            ownerId: owner.id,
            plan,
            untreated: 'none',
          },
          0,
        ),
      )
    }
    return { crewId: crew.id, ids: { owner: owner.id, lead: lead.id, visits } }
  })
  return { database, ids, store: (work) => write(database, (db) => work(crewStore(db, crewId))) }
}

/** A message as somebody sees it in the messenger. */
export interface Seen {
  readonly atMs: number
  readonly to: string
  readonly nonce: string
  readonly answered: Answered
  /** Does it say that it may be a copy? */
  readonly marked: boolean
}

/** As long as the stand-in of the messenger remembers a nonce: some minutes. */
export const REMEMBERS_MS = 300_000

/** Plays the messenger's side of the door: a nonce that it still remembers makes no second message. */
export function messenger() {
  const seen: Seen[] = []
  return {
    seen,
    take(atMs: number, to: string, answered: Answered, nonce: string) {
      const known = seen.some((one) => one.nonce === nonce && atMs - one.atMs < REMEMBERS_MS)
      const marked = answered.reply.lines.some(({ say }) => say === 'visits.repeated')
      if (!known) seen.push({ atMs, to, nonce, answered, marked })
    },
  }
}

export type Messenger = ReturnType<typeof messenger>

/** One pass of the bot over what is due now. @returns errors that it reported */
export async function pass(database: Database, nowMs: number, platform: Messenger): Promise<unknown[]> {
  const errors: unknown[] = []
  await sendAll({
    database,
    nowMs: () => nowMs,
    chooseSafety: choose,
    reportError: (error) => errors.push(error),
    deliver: async ({ personKey }, answered, nonce) => platform.take(nowMs, personKey, answered, nonce),
  })
  return errors
}

/** A pass every so often from one moment to another, as the bot's loop makes them. */
export async function passes(
  database: Database,
  { fromMs, toMs, everyMs }: { readonly fromMs: number; readonly toMs: number; readonly everyMs: number },
  platform: Messenger,
): Promise<void> {
  for (let nowMs = fromMs; nowMs <= toMs; nowMs += everyMs) await pass(database, nowMs, platform)
}
