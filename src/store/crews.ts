import { z } from 'zod'
import { Time } from '#src/recheck/when.ts'
import { Round, Workdays } from '#src/recheck/workdays.ts'
import { Elevation } from './elevation.ts'
import type { Database } from './open.ts'
import { prepared } from './prepared.ts'
import { remembered } from './remembered.ts'
import type { Transaction } from './transaction.ts'

const Tool = z.strictObject({
  kind: z.enum(['scale', 'cylinder', 'spoon', 'scoop']),
  name: z.string(),
  step: z.strictObject({ value: z.string(), unit: z.string() }),
  upTo: z.strictObject({ value: z.string(), unit: z.string() }).exactOptional(),
})

/** Who is told what has to wait after a job. */
const NoticeSettings = z.object({
  /** Persons who mow and water; null for the crew's channel. */
  mowing: z.int().nullable().default(null),
  watering: z.int().nullable().default(null),
  /** The channel for the crew; null for the one in which the job was logged. */
  channel: z.string().nullable().default(null),
  /** When a lead gets the summary of the week, on Monday; null for never. */
  summaryAt: Time.nullable().default('07:00'),
})
export type NoticeSettings = z.infer<typeof NoticeSettings>

/** How a crew works: its tools, and after how many days a measurement or a label is too old to trust. */
export const CrewSettings = z.strictObject({
  tools: z.array(Tool).default([]),
  units: z.enum(['us', 'metric']).default('us'),
  leadRole: z.string().nullable().default(null),
  /** Height above the sea where the crew works, for the wet bulb; null is taken as sea level. */
  elevation: Elevation.nullable().default(null),
  /** Common practice, no source: a season's wear changes an output. */
  calibrationNoteDays: z.number().int().positive().default(90),
  calibrationHoldDays: z.number().int().positive().default(365),
  /** A label entry is looked at again once a year: labels are revised. */
  labelConfirmDays: z.number().int().positive().default(365),
  labelNoteDaysBefore: z.number().int().nonnegative().default(30),
  labelHoldDaysAfter: z.number().int().nonnegative().default(60),
  notices: NoticeSettings.prefault({}),
  /** Unasked messages come within these hours of a workday. Common practice, no source: a crew gathers at seven. */
  startsAt: Time.default('07:00'),
  endsAt: Time.default('17:00'),
  workdays: Workdays.default({ weekdays: [1, 2, 3, 4, 5], daysOff: [] }),
  /** When the crew comes by anyway; looks are put on those days. */
  round: Round.nullable().default(null),
  /** Windows of looks that a lead has changed, by row and look of the usual schedule. */
  lookWindows: z
    .array(z.strictObject({ row: z.string(), look: z.string(), fromDay: z.int(), toDay: z.int() }))
    .default([]),
  /** From this percent control on, an application has done its work. */
  donePercent: z.int().min(1).max(100).default(90),
  /** Turf injury worse than this step of the 9 to 1 scale holds a second application. */
  leastInjuryStep: z.int().min(1).max(9).default(6),
  /** The business as it stands on records; empty where nobody has said. */
  company: z
    .strictObject({
      name: z.string().default(''),
      license: z.string().default(''),
      address: z.string().default(''),
    })
    .default({ name: '', license: '', address: '' }),
  /** Years for which records are kept, where no rule asks for more. */
  keepYears: z.number().int().positive().default(7),
})
export type CrewSettings = z.infer<typeof CrewSettings>
export type MeasuringTool = z.infer<typeof Tool>

export interface Crew {
  readonly id: number
  readonly key: string
  readonly name: string
  readonly language: string
  readonly zone: string
  readonly state: string | null
  readonly settings: CrewSettings
  readonly bookRevision: number
  readonly demo: boolean
}

export interface NewCrew {
  readonly key: string
  readonly name: string
  readonly language: string
  readonly zone: string
  readonly atMs: number
  readonly demo?: boolean
  readonly state?: string
  readonly settings?: CrewSettings
}

type Row = {
  id: number
  key: string
  name: string
  language: string
  zone: string
  state: string | null
  settings: string
  bookRevision: number
  demo: number
}

/** One by one: what PostgreSQL keeps of a statement does not outlive a change of all columns of its table. */
const COLUMNS = [
  'id',
  'key',
  'name',
  'language',
  'zone',
  'state',
  'settings',
  'bookRevision',
  'demo',
] as const

const readSettings = remembered(CrewSettings)

const read = (row: Row): Crew => ({
  id: row.id,
  key: row.key,
  name: row.name,
  language: row.language,
  zone: row.zone,
  state: row.state,
  settings: readSettings(row.settings),
  bookRevision: row.bookRevision,
  demo: row.demo === 1,
})

/** A crew that is not kept yet, while nothing can be written: usual settings, and no rows of its own. */
export function strangeCrew(crew: NewCrew): Crew {
  return {
    id: 0,
    key: crew.key,
    name: crew.name,
    language: crew.language,
    zone: crew.zone,
    state: null,
    settings: CrewSettings.parse({}),
    bookRevision: 0,
    demo: false,
  }
}

/** The crew of one messenger server, made at its first word. */
export async function findOrCreateCrew(db: Transaction, crew: NewCrew): Promise<Crew> {
  return (await findCrew(db, crew.key)) ?? (await createCrew(db, crew))
}

const crewByKey = prepared((db, key: string) => db.selectFrom('crews').select(COLUMNS).where('key', '=', key))

export async function findCrew(db: Transaction | Database['db'], key: string): Promise<Crew | undefined> {
  const [row] = (await crewByKey(db, key)).rows
  return row === undefined ? undefined : read(row)
}

export async function getCrew(db: Transaction, id: number): Promise<Crew | undefined> {
  const row = await db.selectFrom('crews').select(COLUMNS).where('id', '=', id).executeTakeFirst()
  return row === undefined ? undefined : read(row)
}

async function createCrew(db: Transaction, crew: NewCrew): Promise<Crew> {
  await db
    .insertInto('crews')
    .values({
      key: crew.key,
      name: crew.name,
      language: crew.language,
      zone: crew.zone,
      state: crew.state ?? null,
      settings: JSON.stringify(crew.settings ?? CrewSettings.parse({})),
      demo: crew.demo ? 1 : 0,
      createdAtMs: crew.atMs,
    })
    .onConflict((on) => on.column('key').doNothing())
    .execute()
  const made = await findCrew(db, crew.key)
  if (made === undefined) throw new Error(`Cannot find the crew just made: ${crew.key}`)
  return made
}

export type CrewChange = Partial<Pick<Crew, 'name' | 'language' | 'zone' | 'state' | 'settings'>>

export async function updateCrew(db: Transaction, crewId: number, change: CrewChange): Promise<void> {
  const { settings, ...plain } = change
  await db
    .updateTable('crews')
    .set({ ...plain, ...(settings === undefined ? {} : { settings: JSON.stringify(settings) }) })
    .where('id', '=', crewId)
    .execute()
}

/** Names that autocomplete offers have changed: caches keyed by this number are stale. */
export async function raiseBookRevision(db: Transaction, crewId: number): Promise<void> {
  await db
    .updateTable('crews')
    .set((row) => ({ bookRevision: row('bookRevision', '+', 1) }))
    .where('id', '=', crewId)
    .execute()
}
