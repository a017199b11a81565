import { z } from 'zod'
import { remember } from '#src/memory/remember.ts'
import { prepared } from './prepared.ts'
import { remembered } from './remembered.ts'
import type { Transaction } from './transaction.ts'

const Amount = z.strictObject({ value: z.string(), unit: z.string() })

export const SprayerDetails = z.strictObject({
  tank: Amount,
  /** Distance between the marks on the tank; none when it has no marks. */
  marks: Amount.nullable().default(null),
  kind: z.string().default(''),
  tip: z.string().default(''),
  pressure: z.string().default(''),
})
export type SprayerDetails = z.infer<typeof SprayerDetails>

export interface Sprayer {
  readonly id: number
  readonly name: string
  readonly details: SprayerDetails
}

/** Measured output of one sprayer, tip and pressure in one person's hands. */
export interface Calibration {
  readonly id: number
  readonly sprayerId: number
  readonly personId: number
  readonly setup: string
  readonly output: z.infer<typeof CalibrationOutput>
  readonly measuredOn: string
}

/** Volume of spray per area, in printed units. */
export const CalibrationOutput = z.strictObject({ value: z.string(), unit: z.string() })

/** What happened to a sprayer's contents. */
export const ContentsDetails = z.strictObject({
  /** Label entries in the tank; a typed rate has no entry. */
  products: z.array(z.strictObject({ entryId: z.number().int().nullable(), name: z.string() })),
  volume: Amount.nullable(),
  rate: z.string().nullable().default(null),
  output: z.string().nullable().default(null),
  note: z.string().default(''),
})
export type ContentsDetails = z.infer<typeof ContentsDetails>

export const SprayerEventKind = z.enum(['poured', 'emptied', 'cleaned', 'unknown'])
export type SprayerEventKind = z.infer<typeof SprayerEventKind>

export interface SprayerEvent {
  readonly id: number
  readonly sprayerId: number
  readonly personId: number
  readonly kind: SprayerEventKind
  readonly details: ContentsDetails
  readonly atMs: number
}

/** A calibration holds for one tip at one pressure: either changed, it is void. */
export const setupOf = (details: SprayerDetails): string => `${details.tip}|${details.pressure}`

const readDetails = remembered(SprayerDetails)
const readOutput = remembered(CalibrationOutput)
const readContents = remembered(ContentsDetails)

const SPRAYER = ['id', 'name', 'details'] as const
const sprayersByName = prepared((db, crewId: number) =>
  db
    .selectFrom('sprayers')
    .select(SPRAYER)
    .where('crewId', '=', crewId)
    .where('retiredAtMs', 'is', null)
    .orderBy('name'),
)

/** `limit` stands in the words of the statement; callers know a handful of numbers. */
const newestEvents = remember(
  (limit) =>
    prepared((db, crewId: number, sprayerId: number) =>
      db
        .selectFrom('sprayerEvents')
        .select(['id', 'sprayerId', 'personId', 'kind', 'details', 'atMs'])
        .where('crewId', '=', crewId)
        .where('sprayerId', '=', sprayerId)
        .orderBy('id', 'desc')
        .limit(Number(limit)),
    ),
  20,
)

export function sprayersOf(db: Transaction, crewId: number) {
  const sprayers = () =>
    db.selectFrom('sprayers').select(SPRAYER).where('crewId', '=', crewId).where('retiredAtMs', 'is', null)
  const read = (row: { id: number; name: string; details: string }): Sprayer => ({
    id: row.id,
    name: row.name,
    details: readDetails(row.details),
  })
  const readCalibration = (row: {
    id: number
    sprayerId: number
    personId: number
    setup: string
    output: string
    measuredOn: string
  }): Calibration => ({ ...row, output: readOutput(row.output) })
  const calibrations = () =>
    db
      .selectFrom('calibrations')
      .select(['id', 'sprayerId', 'personId', 'setup', 'output', 'measuredOn'])
      .where('crewId', '=', crewId)
      .where('voidedAtMs', 'is', null)

  return {
    async create(sprayer: Omit<Sprayer, 'id'>, atMs: number): Promise<number> {
      const { id } = await db
        .insertInto('sprayers')
        .values({
          crewId,
          name: sprayer.name,
          details: JSON.stringify(sprayer.details),
          retiredAtMs: null,
          createdAtMs: atMs,
        })
        .returning('id')
        .executeTakeFirstOrThrow()
      return id
    },

    async list(): Promise<Sprayer[]> {
      return (await sprayersByName(db, crewId)).rows.map(read)
    },

    async get(id: number): Promise<Sprayer | undefined> {
      const row = await sprayers().where('id', '=', id).executeTakeFirst()
      return row === undefined ? undefined : read(row)
    },

    async update(id: number, details: SprayerDetails): Promise<void> {
      await db
        .updateTable('sprayers')
        .set({ details: JSON.stringify(details) })
        .where('crewId', '=', crewId)
        .where('id', '=', id)
        .execute()
    },

    async retire(id: number, atMs: number): Promise<void> {
      await db
        .updateTable('sprayers')
        .set({ retiredAtMs: atMs })
        .where('crewId', '=', crewId)
        .where('id', '=', id)
        .execute()
    },

    async keepCalibration(
      calibration: Omit<Calibration, 'id'> & { readonly details?: unknown },
      atMs: number,
    ): Promise<number> {
      const { id } = await db
        .insertInto('calibrations')
        .values({
          crewId,
          sprayerId: calibration.sprayerId,
          personId: calibration.personId,
          setup: calibration.setup,
          output: JSON.stringify(calibration.output),
          details: JSON.stringify(calibration.details ?? {}),
          measuredOn: calibration.measuredOn,
          voidedAtMs: null,
          createdAtMs: atMs,
        })
        .returning('id')
        .executeTakeFirstOrThrow()
      return id
    },

    /** The newest one that still holds for this sprayer's tip and pressure. */
    async findCalibration(sprayer: Sprayer, personId: number): Promise<Calibration | undefined> {
      const row = await calibrations()
        .where('sprayerId', '=', sprayer.id)
        .where('personId', '=', personId)
        .where('setup', '=', setupOf(sprayer.details))
        .orderBy('id', 'desc')
        .limit(1)
        .executeTakeFirst()
      return row === undefined ? undefined : readCalibration(row)
    },

    /** Oldest first: a sprayer's outputs through the season. */
    async listCalibrations(sprayerId: number, personId?: number): Promise<Calibration[]> {
      let query = calibrations().where('sprayerId', '=', sprayerId)
      if (personId !== undefined) query = query.where('personId', '=', personId)
      return (await query.orderBy('id').execute()).map(readCalibration)
    },

    async addEvent(event: Omit<SprayerEvent, 'id'> & { readonly turnId: number | null }): Promise<void> {
      await db
        .insertInto('sprayerEvents')
        .values({
          crewId,
          sprayerId: event.sprayerId,
          personId: event.personId,
          turnId: event.turnId,
          kind: event.kind,
          details: JSON.stringify(event.details),
          atMs: event.atMs,
        })
        .execute()
    },

    /** Newest first. */
    async listEvents(sprayerId: number, limit: number): Promise<SprayerEvent[]> {
      const { rows } = await newestEvents(String(limit))(db, crewId, sprayerId)
      return rows.map((row) => ({
        ...row,
        kind: SprayerEventKind.parse(row.kind),
        details: readContents(row.details),
      }))
    },
  }
}
