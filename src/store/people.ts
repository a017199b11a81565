import { z } from 'zod'
import { OwnDays } from '#src/recheck/workdays.ts'
import { prepared } from './prepared.ts'
import { remembered } from './remembered.ts'
import type { Transaction } from './transaction.ts'

const PersonSettings = z.strictObject({
  units: z.enum(['us', 'metric']).nullable().default(null),
  /** A license on file: with it a lead may lift a hold, for one product, area and day. */
  license: z.strictObject({ number: z.string(), expiresOn: z.string() }).nullable().default(null),
  /** The licensed lead who named this person as deputy. */
  deputyOf: z.number().int().nullable().default(null),
  /** On which days this person works, where that is not as the crew. */
  days: OwnDays.prefault({}),
  /** When the messenger last said, in the crew itself, that this person leads. */
  ledAtMs: z.number().int().exactOptional(),
  /** What the messenger called this person before; earlier answers may still say so. */
  earlierNames: z.array(z.string()).default([]),
})
export type PersonSettings = z.infer<typeof PersonSettings>

export interface Person {
  readonly id: number
  readonly key: string
  readonly name: string
  readonly language: string | null
  readonly role: 'lead' | 'crew'
  /** Leads by what is kept here, or by the messenger's word at their last request in the crew. */
  readonly leads: boolean
  /** Where in the crew this person was last heard; null when nowhere. */
  readonly lastChannelKey: string | null
  readonly settings: PersonSettings
}

interface NewPerson {
  readonly key: string
  readonly name: string
  readonly atMs: number
  readonly role?: Person['role']
  readonly language?: string
  /** Where they speak, and whether the messenger says that they lead; not given where it cannot be known. */
  readonly channelKey?: string
  readonly leadsByMessenger?: boolean
  readonly settings?: Partial<PersonSettings>
}

type Row = {
  id: number
  key: string
  name: string
  language: string | null
  role: string
  leadsByMessenger: number
  lastChannelKey: string | null
  settings: string
}
const COLUMNS = [
  'id',
  'key',
  'name',
  'language',
  'role',
  'leadsByMessenger',
  'lastChannelKey',
  'settings',
] as const

const readSettings = remembered(PersonSettings)
const Role = z.enum(['lead', 'crew'])

const read = (row: Row): Person => ({
  id: row.id,
  key: row.key,
  name: row.name,
  language: row.language,
  role: Role.parse(row.role),
  leads: row.role === 'lead' || row.leadsByMessenger === 1,
  lastChannelKey: row.lastChannelKey,
  settings: readSettings(row.settings),
})

/** Somebody who is not kept yet, while nothing can be written. */
export function strangePerson({ key, name }: Pick<NewPerson, 'key' | 'name'>): Person {
  return {
    id: 0,
    key,
    name,
    language: null,
    role: 'crew',
    leads: false,
    lastChannelKey: null,
    settings: PersonSettings.parse({}),
  }
}

/** What the messenger says of a person, as it is kept. */
const spokenOf = ({ name, channelKey, leadsByMessenger }: NewPerson) => ({
  name,
  ...(channelKey === undefined ? {} : { lastChannelKey: channelKey }),
  ...(leadsByMessenger === undefined ? {} : { leadsByMessenger: leadsByMessenger ? 1 : 0 }),
})

/** No need to write it down more often than this. */
const LED_STEP_MS = 3_600_000

/** The settings with the hour at which the messenger last called this person a lead. */
function settingsHeard(kept: string, { leadsByMessenger, atMs }: NewPerson): string {
  if (leadsByMessenger !== true) return kept
  const settings = readSettings(kept)
  if (settings.ledAtMs !== undefined && Math.abs(atMs - settings.ledAtMs) < LED_STEP_MS) return kept
  return JSON.stringify({ ...settings, ledAtMs: atMs })
}

/** The settings with the name that is no longer said among the earlier ones. */
function settingsNamed(kept: string, before: string, name: string): string {
  if (name === before) return kept
  const settings = readSettings(kept)
  return JSON.stringify({
    ...settings,
    earlierNames: [...new Set([...settings.earlierNames, before])],
  })
}

const personByKey = prepared((db, crewId: number, key: string) =>
  db.selectFrom('people').select(COLUMNS).where('crewId', '=', crewId).where('key', '=', key),
)
const whoLead = prepared((db, crewId: number) =>
  db
    .selectFrom('people')
    .select(COLUMNS)
    .where('crewId', '=', crewId)
    .where('removedAtMs', 'is', null)
    .where((is) => is.or([is('role', '=', 'lead'), is('leadsByMessenger', '=', 1)]))
    .orderBy('id'),
)

export function peopleOf(db: Transaction, crewId: number) {
  const findRow = async (key: string): Promise<Row | undefined> =>
    (await personByKey(db, crewId, key)).rows[0]

  /** Takes over what the messenger says now; nothing is written when nothing has changed. */
  const catchUp = async (row: Row, said: NewPerson): Promise<Person> => {
    const { name, lastChannelKey, leadsByMessenger } = { ...row, ...spokenOf(said) }
    const settings = settingsNamed(settingsHeard(row.settings, said), row.name, name)
    const isSame =
      name === row.name &&
      lastChannelKey === row.lastChannelKey &&
      leadsByMessenger === row.leadsByMessenger &&
      settings === row.settings
    if (!isSame)
      await db
        .updateTable('people')
        .set({ name, lastChannelKey, leadsByMessenger, settings })
        .where('crewId', '=', crewId)
        .where('id', '=', row.id)
        .execute()
    return read({ ...row, name, lastChannelKey, leadsByMessenger, settings })
  }

  return {
    async find(key: string): Promise<Person | undefined> {
      const row = await findRow(key)
      return row === undefined ? undefined : read(row)
    },

    async get(id: number): Promise<Person | undefined> {
      const row = await db
        .selectFrom('people')
        .select(COLUMNS)
        .where('crewId', '=', crewId)
        .where('id', '=', id)
        .executeTakeFirst()
      return row === undefined ? undefined : read(row)
    },

    /** The person as the messenger knows them today; made at their first word. */
    async findOrCreate(person: NewPerson): Promise<Person> {
      const known = await findRow(person.key)
      if (known !== undefined) return catchUp(known, person)
      await db
        .insertInto('people')
        .values({
          crewId,
          key: person.key,
          language: person.language ?? null,
          role: person.role ?? 'crew',
          leadsByMessenger: 0,
          lastChannelKey: null,
          ...spokenOf(person),
          settings: settingsHeard(JSON.stringify(PersonSettings.parse(person.settings ?? {})), person),
          removedAtMs: null,
          createdAtMs: person.atMs,
        })
        .onConflict((on) => on.columns(['crewId', 'key']).doNothing())
        .execute()
      const made = await findRow(person.key)
      if (made === undefined) throw new Error(`Cannot find the person just made: ${person.key}`)
      return read(made)
    },

    async list(): Promise<Person[]> {
      const rows = await db
        .selectFrom('people')
        .select(COLUMNS)
        .where('crewId', '=', crewId)
        .where('removedAtMs', 'is', null)
        .orderBy('id')
        .execute()
      return rows.map(read)
    },

    /** Those who lead, by what is kept here or by the messenger's last word: few, in a server of thousands too. */
    async leads(): Promise<Person[]> {
      return (await whoLead(db, crewId)).rows.map(read)
    },

    async update(id: number, change: Partial<Pick<Person, 'language' | 'role' | 'settings'>>): Promise<void> {
      // An update that sets nothing is no statement.
      if (Object.keys(change).length === 0) return
      const { settings, ...plain } = change
      await db
        .updateTable('people')
        .set({ ...plain, ...(settings === undefined ? {} : { settings: JSON.stringify(settings) }) })
        .where('crewId', '=', crewId)
        .where('id', '=', id)
        .execute()
    },
  }
}
